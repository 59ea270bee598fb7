import { Refusal, type RunPassage } from '@breakbook/lab';
import { lumpedHeating } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import {
  BEFORE,
  HEAT_CALIBRATIONS,
  HEAT_METHOD,
  type HeatInvention,
  inventedHeatRun,
  RESISTANCE,
  ROOM,
  SPEED,
  TIME_CONSTANT,
} from './invented-heat.fixture.js';
import { calibration } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf, seenIn } from './reading.fixture.js';

const read = (over: Partial<HeatInvention> = {}) => readRun(inventedHeatRun(over)).reading;
const seen = (over: Partial<HeatInvention> = {}) => seenIn(readRun(inventedHeatRun(over)));
const one = { stages: [{ power: 600, seconds: 240, cooling: 0 }] };
const ONE_STAGE = { parameters: { stages: HEAT_METHOD.parameters.stages.slice(1) } };
const single = { ...one, ...ONE_STAGE, named: false };
const broke = { endReason: 'something broke' } as const;

describe('a drag of constant power without noise', () => {
  const reading = read({ ...single, noise: 0 });
  // Lumped capacity at constant power, Incropera and DeWitt: T = T_a + R P (1 − e^(−t/τ)).
  const closed = (power: number, seconds: number) =>
    lumpedHeating(
      [seconds],
      { kind: 'constant', power },
      {
        conductance: 1 / RESISTANCE,
        capacity: TIME_CONSTANT / RESISTANCE,
        ambient: ROOM,
        start: ROOM,
      },
    ).temperature[0] as number;

  it('gives energy and power by their closed forms', () => {
    expect(numberOf(reading, 'brakingEnergy')).toBeCloseTo((600 * 240) / 1000, 6);
    expect(numberOf(reading, 'meanPower')).toBeCloseTo(600, 6);
    expect(numberOf(reading, 'timeSurvived')).toBeCloseTo(240, 9);
    expect(numberOf(reading, 'energySurvived')).toBeCloseTo(600 * 240, 3);
  });

  it('gives the peak by the lumped model', () => {
    // The median over 3 s lies at most 1.5 s before the end of heating.
    expect(numberOf(reading, 'peakTemperature')).toBeLessThan(closed(600, 240));
    expect(numberOf(reading, 'peakTemperature')).toBeGreaterThan(closed(600, 238));
  });

  it('gives the time above a level between the crossings of the lumped model', () => {
    // Up: t = −τ ln(1 − (θ − T_a)/(R P)); down after 240 s: τ ln((T − T_a)/(θ − T_a)), cut off by the 20 s recorded.
    const up = -TIME_CONSTANT * Math.log(1 - (120 - ROOM) / (RESISTANCE * 600));
    const down = TIME_CONSTANT * Math.log((closed(600, 240) - ROOM) / (120 - ROOM));
    expect(down).toBeGreaterThan(20);
    // The last sample stands a tenth of a second before the end of the record.
    expect(numberOf(reading, 'timeAbove120')).toBeCloseTo(240 - up + 20 - 0.1, 1);
  });

  it('carries calibration through to each number by how it follows the channel', () => {
    // u(F) = 1 N over 2000 m, u(v) = 1 m/s over 17 280 N·s.
    const way = SPEED * (BEFORE + 240 + 20 - 0.1);
    const parts = [way, 240 * (600 / SPEED)];
    expect(named(reading, 'brakingEnergy').uncertainty?.expanded).toBeCloseTo((2 * Math.hypot(...parts)) / 1000, 3);
    expect(named(reading, 'meanPower').uncertainty?.expanded).toBeCloseTo(2 * SPEED, 6);
    // Only the hotter of two sensors bears on the peak.
    expect(named(reading, 'peakTemperature').uncertainty).toMatchObject({
      expanded: 2,
      components: [{ name: 'Left', u: 1 }],
    });
    // dt/dT of the crossing on the way up: τ / (R P − (θ − T_a)); there is none on the way down within the record.
    const slope = TIME_CONSTANT / (RESISTANCE * 600 - (120 - ROOM));
    expect(named(reading, 'timeAbove120').uncertainty?.expanded).toBeCloseTo(2 * slope, 2);
  });

  it('marks what happened, and hands over the power', () => {
    expect(reading.events.map(({ name }) => name)).toEqual(['brake on', 'hottest', 'brake off']);
    const { traces } = readRun(inventedHeatRun(single));
    expect(traces.at(-1)).toMatchObject({ channel: 'brakingPower', unit: 'W' });
    expect(reading).not.toHaveProperty('passages');
  });

  it('every step says what was asked and answered', () => {
    for (const { steps } of reading.characteristics)
      for (const { question, answer } of steps) {
        expect(question).toMatch(/\?$/);
        expect(answer).toMatch(/\.$/);
      }
  });

  it('lists no time above a temperature that the method does not', () => {
    const parameters = { ...ONE_STAGE.parameters, thresholds: [] };
    expect(named(read({ ...single, parameters }), 'timeAbove120').value).toMatchObject({
      notEvaluated: { because: 'method H1 rev. 1 lists no threshold of 120 Cel' },
    });
  });
});

describe('stages', () => {
  it('add up, each with its own numbers, in one file or in one each', () => {
    for (const split of [false, true]) {
      const reading = read({ split, noise: 0 });
      expect(numberOf(reading, 'brakingEnergy')).toBeCloseTo((300 * 120 + 600 * 240) / 1000, 2);
      expect(numberOf(reading, 'timeSurvived')).toBeCloseTo(360, 6);
      expect(numberOf(reading, 'meanPower')).toBeCloseTo((300 * 120 + 600 * 240) / 360, 6);
      expect(reading.passages?.map(({ passage, file }) => [passage, file])).toEqual([
        [1, 'drag-1.csv'],
        [2, split ? 'drag-2.csv' : 'drag-1.csv'],
      ]);
      const energies = reading.passages?.map(
        ({ characteristics }) =>
          characteristics.find(({ characteristic }) => characteristic === 'brakingEnergy')?.value,
      );
      expect(energies).toMatchObject([{ value: expect.closeTo(36, 1) }, { value: expect.closeTo(144, 1) }]);
      const names = reading.characteristics.map(({ characteristic }) => characteristic);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('come with traces and checks of their passage', () => {
    const { reading, traces } = readRun(inventedHeatRun({ split: true }));
    expect(new Set(traces.map(({ passage }) => passage))).toEqual(new Set([1, 2]));
    expect(reading.checks.filter(({ check }) => check === 'power in band').map(({ passage }) => passage)).toEqual([
      1, 2,
    ]);
    expect(reading.events.filter(({ name }) => name === 'brake on').map(({ passage }) => passage)).toEqual([1, 2]);
  });

  it('without names are not held against a programme', () => {
    expect(seen({ named: false })).toMatchObject({ checks: ['stage: not evaluated'], proposed: 'needs a look' });
    expect(numberOf(read({ named: false, noise: 0 }), 'brakingEnergy')).toBeCloseTo(180, 2);
  });

  it('aim at what their passage names', () => {
    const aimed = (power: number) => {
      const input = inventedHeatRun({});
      const passages = (input.run.passages ?? []).map(
        (each): RunPassage => (each.passage === 2 ? { ...each, target: { value: power, unit: 'W' } } : each),
      );
      return seenIn(readRun({ ...input, run: { ...input.run, passages } })).checks;
    };
    expect(aimed(600)).toEqual([]);
    expect(aimed(800)).toEqual(['power in band 2: fail']);
  });

  it('are corrected by the calibration of their own day', () => {
    const input = inventedHeatRun({
      split: true,
      calibrations: [
        ...HEAT_CALIBRATIONS,
        calibration('S-brakeForce', { calibration: 'NEW', unit: 'N', date: '2031-03-05', expandedUncertainty: 2 }),
      ],
      text: (text, file) => (file === 1 ? text.replace('2031-03-04', '2031-03-05') : text),
    });
    const passages = (input.run.passages ?? []).map(
      (each): RunPassage =>
        each.passage === 2 ? { ...each, startedAt: each.startedAt.replace('03-04', '03-05') } : each,
    );
    const { reading } = readRun({ ...input, run: { ...input.run, passages } });
    expect(
      reading.calibrations.filter(({ channel }) => channel === 'brakeForce').map((each) => each.calibration),
    ).toEqual(['CAL-S-brakeForce', 'NEW']);
    expect(reading.flags).toEqual([]);
  });

  it('refuse a start that their file does not hold', () => {
    const input = inventedHeatRun({});
    const passages = (input.run.passages ?? []).map(
      (each): RunPassage => (each.passage === 2 ? { ...each, startedAt: '2031-03-04T12:00:00Z' } : each),
    );
    expect(() => readRun({ ...input, run: { ...input.run, passages } })).toThrow(
      'passage 2 of the run began at 2031-03-04T12:00:00Z, and this record does not hold that moment',
    );
  });

  it('refuse a file that says one passage where it is taken for two', () => {
    const mark = (text: string) => text.replace('# rig', '# passage: 1\n# rig');
    expect(() => read({ text: mark })).toThrow('is of passage "1" alone, and run 77 takes it for passages 1, 2');
    expect(read({ ...single, named: false, text: mark }).flags).toEqual([]);
  });

  it('refuse a method that names no track temperature', () => {
    const channels = HEAT_METHOD.channels.filter(({ channel }) => !channel.startsWith('track'));
    expect(() => read({ method: { channels } })).toThrow(Refusal);
  });
});

describe('how far the rim went', () => {
  // Failing after 150 s: T = 23 + 180 (1 − e^(−150/90)).
  const atFailure = ROOM + RESISTANCE * 600 * (1 - Math.exp(-150 / TIME_CONSTANT));

  it('is exact where the tyre lost its pressure', () => {
    const reading = read({ ...single, failsAfter: 150, noise: 0, ...broke });
    expect(named(reading, 'temperatureAtFailure').value).toMatchObject({ kind: 'exact' });
    // The median of the last 2 s lies a second earlier, where it rises by a third of a kelvin a second.
    expect(numberOf(reading, 'temperatureAtFailure')).toBeGreaterThan(atFailure - 0.6);
    expect(numberOf(reading, 'temperatureAtFailure')).toBeLessThan(atFailure);
    expect(named(reading, 'timeSurvived').value).toMatchObject({ kind: 'exact', value: expect.closeTo(150, 0) });
    expect(named(reading, 'energySurvived').value).toMatchObject({ kind: 'exact', value: expect.closeTo(90_000, -2) });
    expect(named(reading, 'energySurvived')).not.toHaveProperty('ifBroken');
    expect(reading.events.map(({ name }) => name)).toContain('failure');
    expect(reading.proposedValidity).toBe('valid');
  });

  it('is at least what was reached where it survived, and at most that where it is found broken all the same', () => {
    const reading = read({ ...single, noise: 0 });
    const peak = numberOf(reading, 'peakTemperature');
    expect(named(reading, 'temperatureAtFailure')).toMatchObject({
      value: { kind: 'atLeast', value: peak },
      ifBroken: { kind: 'atMost', value: peak },
    });
    expect(named(reading, 'timeSurvived')).toMatchObject({
      value: { kind: 'atLeast', value: 240 },
      ifBroken: { kind: 'atMost', value: 240 },
    });
    expect(named(reading, 'energySurvived').ifBroken).toMatchObject({ kind: 'atMost' });
  });

  it('is taken at a sudden end of force only where the rim is found broken', () => {
    // The brake ends at 150 s of 240 with the tyre whole.
    const row: HeatInvention['row'] = (cells, { braking }) => (braking >= 150 ? { ...cells, force: 0 } : cells);
    const reading = read({ ...single, noise: 0, row, ...broke });
    expect(named(reading, 'timeSurvived')).toMatchObject({
      value: { kind: 'atLeast', value: expect.closeTo(150, 0) },
      ifBroken: { kind: 'exact', value: expect.closeTo(150, 0) },
    });
    expect(named(reading, 'temperatureAtFailure').ifBroken).toMatchObject({ kind: 'exact' });
    expect(reading.checks.find(({ check }) => check === 'ending')).toMatchObject({
      outcome: 'pass',
      finding: expect.stringContaining('brake force ended at once'),
    });
  });

  it('takes no brake that was let go slowly, or at the end of its stage, for a failure', () => {
    const slow: HeatInvention['row'] = (cells, { braking }) =>
      braking >= 150 ? { ...cells, force: Math.max(0, cells.force * (1 - (braking - 150) / 20)) } : cells;
    for (const over of [
      { ...single, noise: 0, row: slow },
      { ...single, noise: 0 },
    ])
      expect(named(read(over), 'timeSurvived').ifBroken).toMatchObject({ kind: 'atMost' });
  });

  it('takes no tyre that was let down after the run for a failure', () => {
    const row: HeatInvention['row'] = (cells) => (cells.time > BEFORE + 240 + 10 ? { ...cells, tyre: 0 } : cells);
    expect(named(read({ ...single, row }), 'timeSurvived').value).toMatchObject({ kind: 'atLeast' });
  });

  it('takes a tyre that failed in an earlier stage for no failure of the last, and flags it', () => {
    const row: HeatInvention['row'] = (cells, { stage, braking }) =>
      stage === 0 && braking > 100 ? { ...cells, tyre: 0 } : cells;
    const found = seen({ row });
    expect(named(found.reading, 'timeSurvived').value).toMatchObject({
      kind: 'atLeast',
      value: expect.closeTo(360, 1),
    });
    expect(found.checks).toEqual(['ending: flag']);
  });
});

describe('gaps and what is cut off', () => {
  const gap: HeatInvention['row'] = (cells, { stage, braking }) =>
    stage === 0 && braking > 100 && braking < 110 ? undefined : cells;

  it('leave the energy at least what is known, and bound the time', () => {
    const reading = read({ ...single, noise: 0, row: gap });
    // 10 s without a sample, from 100 to 110 s of braking.
    expect(named(reading, 'brakingEnergy').value).toMatchObject({
      kind: 'atLeast',
      value: expect.closeTo((600 * 230) / 1000, 0),
    });
    expect(named(reading, 'energySurvived').ifBroken).toMatchObject({
      notEvaluated: { because: expect.stringContaining('a gap of 10.00 s in all') },
    });
    expect(named(reading, 'timeSurvived')).toMatchObject({
      value: { kind: 'atLeast', value: expect.closeTo(230, 0) },
      ifBroken: { kind: 'atMost', value: expect.closeTo(240, 0) },
    });
    expect(named(reading, 'meanPower').value).toMatchObject({ kind: 'exact', value: expect.closeTo(600, 6) });
    expect(seen({ ...single, row: gap })).toMatchObject({
      checks: ['gaps: flag'],
      flags: ['time.gap', 'time.gap'].slice(1),
    });
  });

  it('of up to two seconds are bridged', () => {
    const short: HeatInvention['row'] = (cells, { braking }) => (braking > 100 && braking < 101.8 ? undefined : cells);
    const reading = read({ ...single, noise: 0, row: short });
    expect(named(reading, 'brakingEnergy').value).toMatchObject({ kind: 'exact', value: expect.closeTo(144, 3) });
  });

  it('leave a peak at full scale at least', () => {
    const row: HeatInvention['row'] = (cells) => ({ ...cells, left: Math.min(cells.left, 150) });
    const placements = inventedHeatRun({}).rig?.placements.map((each) =>
      each.channel === 'trackTemperatureLeft' ? { ...each, fullScale: { value: 150, unit: 'Cel' } } : each,
    );
    const found = seen({
      ...single,
      noise: 0,
      row: (cells, at) => row({ ...cells, right: cells.left - 60 }, at),
      rig: { placements: placements ?? [] },
    });
    expect(named(found.reading, 'peakTemperature').value).toMatchObject({ kind: 'atLeast', value: 150 });
    expect(named(found.reading, 'temperatureAtFailure').ifBroken).toMatchObject({
      notEvaluated: { because: expect.stringContaining('cut off at full scale') },
    });
    expect(found.flags).toEqual(['signal.saturated']);
  });

  it('a stage whose file did not come leaves the sums at least, and fails its check', () => {
    const input = inventedHeatRun({ split: true });
    const passages = (input.run.passages ?? []).map(
      ({ file, ...rest }): RunPassage => (rest.passage === 1 && file ? { ...rest, file } : rest),
    );
    const found = seenIn(readRun({ ...input, files: input.files.slice(0, 1), run: { ...input.run, passages } }));
    expect(found.checks).toEqual(['record: fail']);
    expect(named(found.reading, 'brakingEnergy').value).toMatchObject({ kind: 'atLeast' });
    expect(named(found.reading, 'timeSurvived').ifBroken).toMatchObject({
      notEvaluated: { because: expect.stringContaining('stage 2 has no record') },
    });
  });
});

describe('a faultless drag', () => {
  it.each([0, 1, 3])('with %d times its noise passes every check', (noise) => {
    expect(seen({ noise })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it.each([5, 10, 50])('at %d samples a second passes every check', (rate) => {
    expect(seen({ rate })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it('in files of their own passes every check', () => {
    expect(seen({ split: true })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it('that fails as it should passes every check', () => {
    expect(seen({ failsAfter: 150, ...broke })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it('with two short interruptions passes every check', () => {
    const row: HeatInvention['row'] = (cells, { braking }) =>
      (braking > 50 && braking < 55) || (braking > 80 && braking < 88) ? { ...cells, force: 0 } : cells;
    expect(seen({ ...single, row })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
});

describe('one fault at a time is found, and no other', () => {
  const braked =
    (
      change: (cells: Parameters<HeatInvention['row']>[0], braking: number) => Partial<typeof cells>,
    ): HeatInvention['row'] =>
    (cells, { braking }) =>
      braking > 0 ? { ...cells, ...change(cells, braking) } : cells;
  const always =
    (change: (cells: Parameters<HeatInvention['row']>[0]) => Partial<typeof cells>): HeatInvention['row'] =>
    (cells) => ({ ...cells, ...change(cells) });
  it.each<[string, Partial<HeatInvention>, string[], string[]]>([
    ['too much power', { row: braked(({ force }) => ({ force: 1.1 * force })) }, ['power in band: fail'], []],
    [
      'a power that is right in the mean and wrong on its way',
      { row: braked(({ force }, t) => ({ force: force * (1 + 0.12 * Math.sign(Math.sin(t / 10))) })) },
      ['power in band: fail'],
      [],
    ],
    [
      'a wheel too slow',
      { row: braked(({ speed, force }) => ({ speed: 0.93 * speed, force: force / 0.93 })) },
      ['speed in band: fail'],
      [],
    ],
    ['an air stream too weak', { row: always(({ air }) => ({ air: 0.85 * air })) }, ['air speed in band: fail'], []],
    ['a warm room', { row: always(() => ({ room: 31 })) }, ['room temperature: flag'], []],
    [
      'a warm start',
      { row: always(({ left, right }) => ({ left: left + 15, right: right + 15 })) },
      ['cold start: fail'],
      [],
    ],
    ['a tyre too soft', { row: always(({ tyre }) => ({ tyre: 0.9 * tyre })) }, ['tyre pressure: fail'], []],
    [
      'three interruptions',
      { row: braked(({ force }, t) => ({ force: [50, 80, 110].some((at) => t > at && t < at + 4) ? 0 : force })) },
      ['interruptions: fail'],
      [],
    ],
    [
      'one long interruption',
      { row: braked(({ force }, t) => ({ force: t > 50 && t < 65 ? 0 : force })) },
      ['interruptions: fail'],
      [],
    ],
    [
      'a stage that ended early',
      {
        stages: [{ power: 600, seconds: 200, cooling: 0 }],
        row: braked(({ force }, t) => ({ force: t > 180 ? force * Math.max(0, 1 - (t - 180) / 15) : force })),
      },
      ['stage length: flag', 'ending: flag'],
      [],
    ],
    [
      'a sensor that came off',
      { row: braked(({ right }, t) => ({ right: t > 100 ? 30 : right })) },
      ['track sensor attached: flag', 'track sensors: flag'],
      ['signal.step'],
    ],
    [
      'a sensor beside the track',
      { row: always(() => ({ right: 24 })) },
      ['track sensor attached: flag', 'track sensors: flag'],
      ['signal.stuck'],
    ],
    [
      'two sensors apart',
      { row: always(({ left, right }) => ({ right: right - 0.4 * (left - ROOM) })) },
      ['track sensors: flag'],
      [],
    ],
    [
      'a reading below absolute zero',
      { row: braked(({ right }, t) => ({ right: t > 200 ? -300 : right })) },
      ['track sensor attached: flag'],
      ['signal.below-absolute-zero'],
    ],
    ['too slow a logger', { rate: 2 }, ['sampling rate: fail'], []],
    [
      'a calibration overdue',
      { calibrations: HEAT_CALIBRATIONS.filter(({ sensor }) => sensor !== 'S-brakeForce') },
      ['calibration: fail'],
      [],
    ],
    ['a break that the record does not show', { ...broke }, ['ending: flag'], []],
    ['a failure that the examination does not know', { failsAfter: 150 }, ['ending: flag'], []],
    ['a run stopped early', { endReason: 'stopped early' }, ['ending: flag'], []],
    ['a rig fault', { endReason: 'rig fault' }, ['ending: fail'], []],
    ['no braking at all', { row: always(() => ({ force: 0 })) }, ['loading: fail'], ['signal.no-event']],
    [
      'a force of the wrong sign',
      { row: always(({ force }) => ({ force: -force })) },
      ['loading: fail'],
      ['signal.no-event'],
    ],
  ])('%s', (_, over, checks, flags) => {
    const found = seen({ ...single, ...over });
    expect(found.checks).toEqual(checks);
    expect(found.flags).toEqual(flags);
    expect(found.proposed).toBe(checks.some((each) => each.endsWith('fail')) ? 'invalid' : 'needs a look');
    for (const { outcome, action, finding, question } of found.reading.checks) {
      expect([question.endsWith('?'), finding.endsWith('.')]).toEqual([true, true]);
      expect(action !== undefined).toBe(outcome !== 'pass');
    }
  });

  it('a constant lever weight has no power to keep to', () => {
    const row: HeatInvention['row'] = (cells, { braking }) =>
      braking > 0 ? { ...cells, force: 1.2 * cells.force } : cells;
    const parameters = { ...ONE_STAGE.parameters, control: 'constant lever weight' as const };
    expect(seen({ ...single, parameters, row })).toMatchObject({ checks: [], proposed: 'valid' });
  });
});

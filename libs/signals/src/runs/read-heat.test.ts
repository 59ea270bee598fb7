import { Refusal, type RunPassage } from '@breakbook/lab';
import { lumpedHeating } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import {
  BEFORE,
  HEAT_CALIBRATIONS,
  HEAT_METHOD,
  type HeatInvention,
  inventedHeatRun,
  ONE_STAGE,
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

describe('a drag of constant power without noise', () => {
  const reading = read({ ...ONE_STAGE, noise: 0 });
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
    const { traces } = readRun(inventedHeatRun(ONE_STAGE));
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
    expect(named(read({ ...ONE_STAGE, parameters }), 'timeAbove120').value).toMatchObject({
      notEvaluated: { because: 'method H1 rev. 1 lists no threshold of 120 °C' },
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
    expect(read({ ...ONE_STAGE, named: false, text: mark }).flags).toEqual([]);
  });

  it('refuse a method that names no track temperature', () => {
    const channels = HEAT_METHOD.channels.filter(({ channel }) => !channel.startsWith('track'));
    expect(() => read({ method: { channels } })).toThrow(Refusal);
  });
});

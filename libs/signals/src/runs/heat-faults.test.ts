import { describe, expect, it } from 'vitest';
import { HEAT_CALIBRATIONS, type HeatInvention, inventedHeatRun, ONE_STAGE, ROOM } from './invented-heat.fixture.js';
import { readRun } from './read-run.js';
import { seenIn } from './reading.fixture.js';

const seen = (over: Partial<HeatInvention> = {}) => seenIn(readRun(inventedHeatRun(over)));
const broke = { endReason: 'something broke' } as const;

describe('a faultless drag', () => {
  it.each([0.1, 1, 3])('with %d times its noise passes every check', (noise) => {
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
    expect(seen({ ...ONE_STAGE, row })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
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
  const delayed = (seconds: number): HeatInvention['row'] => {
    const rights: number[] = [];
    return (cells) => {
      rights.push(cells.right);
      return { ...cells, right: rights[rights.length - 1 - 10 * seconds] ?? (rights[0] as number) };
    };
  };
  const frozenFor = (from: number, to: number) => {
    const text = (whole: string) => {
      let held: string | undefined;
      return whole
        .split('\n')
        .map((line) => {
          const cells = line.split(',');
          const time = Number(cells[0]);
          if (cells.length < 8 || !(time > from && time < to)) return line;
          held ??= cells[4];
          return cells.with(4, held as string).join(',');
        })
        .join('\n');
    };
    return text;
  };
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
    [
      'a thermocouple that opened',
      { row: braked(({ right }, t) => ({ right: t > 200 ? 1372 : right })) },
      ['open circuit: flag'],
      ['signal.open-circuit'],
    ],
    [
      'a thermocouple that was never connected, at full scale',
      { row: always(() => ({ right: 401 })) },
      ['open circuit: flag'],
      ['signal.open-circuit'],
    ],
    [
      'a plug that slipped for five seconds',
      { row: braked(({ left }, t) => ({ left: t > 100 && t < 105 ? -200 : left })) },
      ['open circuit: flag'],
      ['signal.open-circuit'],
    ],
    [
      'room and track exchanged',
      { row: always(({ right, room }) => ({ right: room, room: right })) },
      ['room temperature: flag', 'track sensor attached: flag', 'track sensors: flag', 'swapped channels: flag'],
      ['signal.stuck', 'signal.swapped-channels'],
    ],
    [
      'wheel and air stream exchanged',
      {
        row: always(({ air }) => ({ speed: 0.8 * air })),
        parameters: {
          stages: ONE_STAGE.parameters.stages.map((one) => ({
            ...one,
            airSpeed: { value: 24, unit: 'km/h' },
            power: { value: 480, unit: 'W' },
          })),
        },
      },
      ['speed in band: fail', 'air speed in band: fail', 'swapped channels: flag'],
      ['signal.swapped-channels'],
    ],
    [
      'a track sensor that lags by ten seconds',
      { row: delayed(10) },
      ['late track sensor: flag'],
      ['signal.misaligned'],
    ],
    [
      'a track sensor that froze for a quarter of a minute',
      { text: frozenFor(220, 235) },
      ['frozen value: flag'],
      ['signal.stuck'],
    ],
    [
      'a thermometer in whole degrees',
      { text: (text) => text.replaceAll(/^((?:[^,\n#]*,){4})(-?\d+)\.\d+,/gm, '$1$2.000,') },
      ['resolution: flag'],
      ['signal.resolution'],
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
    const found = seen({ ...ONE_STAGE, ...over });
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
    expect(seen({ ...ONE_STAGE, parameters, row })).toMatchObject({ checks: [], proposed: 'valid' });
  });
});

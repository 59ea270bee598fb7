import { describe, expect, it } from 'vitest';
import { BURSTS_AT, calibration, type Invention, inventedRun, RIG, rampAndBurst } from './invented-run.fixture.js';
import { readRun } from './read-run.js';

/** What did not pass, and the codes of the flags raised. */
function seen(over: Partial<Invention>) {
  const { reading } = readRun(inventedRun(over));
  return {
    checks: reading.checks
      .filter(({ outcome }) => outcome !== 'pass')
      .map(({ check, outcome }) => `${check}: ${outcome}`),
    flags: reading.flags.map(({ code }) => code),
    proposed: reading.proposedValidity,
    reading,
  };
}

/** The first 0.7 s of the vented start, a second time. */
function pasted(): Invention['row'] {
  const kept: number[] = [];
  return (cells, i) => {
    if (i < 70) kept.push(cells.first);
    return { ...cells, first: kept[i - 100] ?? cells.first };
  };
}

const full = (value: number) => ({
  placements: RIG.placements.map((one) => ({ ...one, fullScale: { value, unit: 'bar' } })),
});

describe('a run without a fault', () => {
  it.each([0.05, 0.3, 1])('with %d kPa of noise passes every check', (noise) => {
    expect(seen({ noise })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it.each([100, 250, 1000])('at %d samples a second passes every check', (rate) => {
    expect(seen({ rate })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
  it('with a zero that is off, as sensors are, passes every check', () => {
    const row: Invention['row'] = (cells) => ({ time: cells.time, first: cells.first + 3, second: cells.second - 4 });
    expect(seen({ row })).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
  });
});

describe('one fault at a time is found, and no other', () => {
  it.each<[string, Partial<Invention>, string[], string[]]>([
    ['a gap', { row: (cells, i) => (i > 4000 && i < 4010 ? undefined : cells) }, ['gaps: flag'], ['time.gap']],
    ['too slow a logger', { rate: 50 }, ['sampling rate: fail'], []],
    [
      'a pump that ran before the zero was taken',
      { pressure: (t) => (t < 78 ? 19.24 * t : rampAndBurst(t)) },
      ['vented start: fail', 'zero drift: fail'],
      [],
    ],
    [
      'a line under pressure at the start',
      { row: (cells) => ({ ...cells, first: cells.first + 100, second: cells.second + 100 }) },
      ['vented start: fail'],
      [],
    ],
    [
      'a zero that moved',
      { row: (cells) => ({ ...cells, first: cells.first + (cells.time > BURSTS_AT ? 12 : 0) }) },
      ['zero drift: fail'],
      [],
    ],
    ['a record that ends too soon', { seconds: 79 }, ['zero drift: not evaluated'], []],
    ['a sensor too small', { rig: full(15.5) }, ['range used: flag'], []],
    [
      'a sensor at full scale',
      { rig: full(14.6), row: (cells) => ({ ...cells, first: Math.min(1460, cells.first) }) },
      ['range used: flag', 'clipping: flag', 'redundant sensors: flag'],
      ['signal.saturated'],
    ],
    [
      'a top cut off below full scale',
      { row: (cells) => ({ ...cells, first: Math.min(1490, cells.first) }) },
      ['clipping: flag'],
      ['signal.saturated'],
    ],
    [
      'a spike',
      { row: (cells, i) => ({ ...cells, first: cells.first + (i === 5000 ? 400 : 0) }) },
      ['spikes: flag'],
      ['signal.spike'],
    ],
    [
      'a single dropout',
      { row: (cells, i) => ({ ...cells, first: i === 5000 ? 0 : cells.first }) },
      ['spikes: flag'],
      ['signal.spike'],
    ],
    [
      'a plug that slipped for a third of a second',
      { row: (cells, i) => ({ ...cells, first: i > 5000 && i < 5030 ? 0 : cells.first }) },
      ['redundant sensors: flag', 'drops: flag'],
      ['signal.dropout'],
    ],
    [
      'a second sensor that reads 3 % high',
      { row: (cells) => ({ ...cells, second: 1.03 * cells.second }) },
      ['redundant sensors: flag'],
      [],
    ],
    [
      'a ramp too fast',
      { pressure: (t) => (t < 3 ? 0 : t < 23 ? 75 * (t - 3) : 0), seconds: 27 },
      ['ramp in band: fail'],
      [],
    ],
    [
      'a ramp that is right in the mean and wrong on its way',
      { pressure: (t) => (t < 3 ? 0 : t < 13 ? 80 * (t - 3) : t < 78 ? 800 + 10.77 * (t - 13) * 0.7 : 0) },
      ['ramp in band: fail'],
      [],
    ],
    [
      'a slip on the way up',
      { pressure: (t) => (t < 40 ? rampAndBurst(t) : t < BURSTS_AT + 1.5 ? rampAndBurst(t - 1.5) : 0), seconds: 84 },
      ['drops: flag'],
      [],
    ],
    [
      'a calibration that was overdue',
      { calibrations: [calibration('S1', { due: '2031-03-03' }), calibration('S2')] },
      ['calibration: fail'],
      [],
    ],
    [
      'no sensor entered for the second channel',
      { rig: { placements: RIG.placements.slice(0, 1) } },
      ['calibration: flag'],
      [],
    ],
    [
      'values in bar under a header that says kPa',
      {
        noise: 1,
        header: 'time [s],P rim [kPa],P rim 2 [kPa]',
        row: (cells) => ({ time: cells.time, first: cells.first / 100, second: cells.second / 100 }),
      },
      ['range used: flag', 'ramp in band: fail'],
      ['signal.out-of-range'],
    ],
    [
      'a reading below any vacuum',
      { row: (cells, i) => ({ ...cells, first: i > 8050 && i < 8070 ? -300 : cells.first }) },
      ['range used: flag'],
      ['signal.negative-pressure'],
    ],
    [
      'a record that ends at its peak',
      { seconds: 60, endReason: 'programme ended' },
      ['zero drift: not evaluated', 'ending: flag'],
      ['signal.no-event'],
    ],
    [
      'a second sensor that is late by 0.2 s',
      {
        row: (cells) => ({
          ...cells,
          second: rampAndBurst(cells.time - 0.2) + (cells.second - rampAndBurst(cells.time)),
        }),
      },
      ['late sensor: flag'],
      ['signal.misaligned'],
    ],
    [
      'a record without any noise',
      { noise: 0, row: (cells) => ({ ...cells, second: 1.001 * cells.second }) },
      ['smoothness: flag', 'smoothness: flag'],
      ['signal.too-smooth', 'signal.too-smooth'],
    ],
    [
      'a logger of eight bits',
      { row: (cells) => ({ ...cells, first: 11.72 * Math.round(cells.first / 11.72) }) },
      ['resolution: flag'],
      ['signal.resolution'],
    ],
    [
      'one sensor in both columns',
      { row: (cells) => ({ ...cells, second: cells.first }) },
      ['copied channel: flag'],
      ['signal.repeated-block'],
    ],
    ['a stretch pasted in a second time', { row: pasted() }, ['repeated block: flag'], ['signal.repeated-block']],
    [
      'a second sensor that froze for 0.8 s',
      { row: (cells) => ({ ...cells, second: cells.time > 60 && cells.time < 60.8 ? 1140.25 : cells.second }) },
      ['redundant sensors: flag', 'frozen value: flag'],
      ['signal.stuck'],
    ],
    ['a run stopped early', { endReason: 'stopped early' }, ['ending: flag'], []],
    ['a rig fault', { endReason: 'rig fault' }, ['ending: fail'], []],
    [
      'an examination that saw no break where the trace shows one',
      { endReason: 'programme ended' },
      ['ending: flag'],
      [],
    ],
    [
      'an examination that saw a break where the trace shows none',
      { pressure: (t) => (t < 60 ? rampAndBurst(t) : Math.max(0, 1140 - 300 * (t - 60))) },
      ['ending: flag'],
      ['signal.no-event'],
    ],
    [
      'nothing recorded at all',
      { pressure: () => 0 },
      ['range used: flag', 'loading: fail'],
      ['signal.out-of-range', 'signal.no-event'],
    ],
  ])('%s', (_, over, checks, flags) => {
    const found = seen(over);
    expect(found.checks).toEqual(checks);
    expect(found.flags).toEqual(flags);
    expect(found.proposed).toBe(checks.some((one) => one.endsWith('fail')) ? 'invalid' : 'needs a look');
    for (const { outcome, action, finding, question } of found.reading.checks) {
      expect([question.endsWith('?'), finding.endsWith('.')]).toEqual([true, true]);
      expect(action !== undefined).toBe(outcome !== 'pass');
    }
  });

  it('a planned survivor passes, with the flag that nothing let go', () => {
    const pressure = (t: number) => (t < 60 ? rampAndBurst(t) : Math.max(0, 1140 - 300 * (t - 60)));
    expect(seen({ pressure, endReason: 'rig limit reached' })).toMatchObject({
      checks: [],
      flags: ['signal.no-event'],
      proposed: 'needs a look',
    });
  });
});

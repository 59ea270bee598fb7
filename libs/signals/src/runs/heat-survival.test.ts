import type { RunPassage } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  BEFORE,
  type HeatInvention,
  inventedHeatRun,
  ONE_STAGE,
  RESISTANCE,
  ROOM,
  TIME_CONSTANT,
} from './invented-heat.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf, seenIn } from './reading.fixture.js';

const read = (over: Partial<HeatInvention> = {}) => readRun(inventedHeatRun(over)).reading;
const seen = (over: Partial<HeatInvention> = {}) => seenIn(readRun(inventedHeatRun(over)));
const broke = { endReason: 'something broke' } as const;

/** A record without noise is no sensor's. */
const SMOOTH = ['smoothness', 'smoothness'];

describe('how far the rim went', () => {
  // Failing after 150 s: T = 23 + 180 (1 − e^(−150/90)).
  const atFailure = ROOM + RESISTANCE * 600 * (1 - Math.exp(-150 / TIME_CONSTANT));

  it('is exact where the tyre lost its pressure', () => {
    const reading = read({ ...ONE_STAGE, failsAfter: 150, noise: 0, ...broke });
    expect(named(reading, 'temperatureAtFailure').value).toMatchObject({ kind: 'exact' });
    // The median of the last 2 s lies a second earlier, where it rises by a third of a kelvin a second.
    expect(numberOf(reading, 'temperatureAtFailure')).toBeGreaterThan(atFailure - 0.6);
    expect(numberOf(reading, 'temperatureAtFailure')).toBeLessThan(atFailure);
    expect(named(reading, 'timeSurvived').value).toMatchObject({ kind: 'exact', value: expect.closeTo(150, 0) });
    expect(named(reading, 'energySurvived').value).toMatchObject({ kind: 'exact', value: expect.closeTo(90_000, -2) });
    expect(named(reading, 'energySurvived')).not.toHaveProperty('ifBroken');
    expect(reading.events.map(({ name }) => name)).toContain('failure');
    expect(reading.checks.filter(({ outcome }) => outcome !== 'pass').map(({ check }) => check)).toEqual(SMOOTH);
  });

  it('is at least what was reached where it survived, and at most that where it is found broken all the same', () => {
    const reading = read({ ...ONE_STAGE, noise: 0 });
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
    const reading = read({ ...ONE_STAGE, noise: 0, row, ...broke });
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
      { ...ONE_STAGE, noise: 0, row: slow },
      { ...ONE_STAGE, noise: 0 },
    ])
      expect(named(read(over), 'timeSurvived').ifBroken).toMatchObject({ kind: 'atMost' });
  });

  it('takes no tyre that was let down after the run for a failure', () => {
    const row: HeatInvention['row'] = (cells) => (cells.time > BEFORE + 240 + 10 ? { ...cells, tyre: 0 } : cells);
    expect(named(read({ ...ONE_STAGE, row }), 'timeSurvived').value).toMatchObject({ kind: 'atLeast' });
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
    const reading = read({ ...ONE_STAGE, noise: 0, row: gap });
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
    expect(seen({ ...ONE_STAGE, row: gap })).toMatchObject({
      checks: ['gaps: flag'],
      flags: ['time.gap', 'time.gap'].slice(1),
    });
  });

  it('of up to two seconds are bridged', () => {
    const short: HeatInvention['row'] = (cells, { braking }) => (braking > 100 && braking < 101.8 ? undefined : cells);
    const reading = read({ ...ONE_STAGE, noise: 0, row: short });
    expect(named(reading, 'brakingEnergy').value).toMatchObject({ kind: 'exact', value: expect.closeTo(144, 3) });
  });

  it('leave a peak at full scale at least', () => {
    const row: HeatInvention['row'] = (cells) => ({ ...cells, left: Math.min(cells.left, 150) });
    const placements = inventedHeatRun({}).rig?.placements.map((each) =>
      each.channel === 'trackTemperatureLeft' ? { ...each, fullScale: { value: 150, unit: 'Cel' } } : each,
    );
    const found = seen({
      ...ONE_STAGE,
      noise: 0,
      row: (cells, at) => row({ ...cells, right: cells.left - 60 }, at),
      rig: { placements: placements ?? [] },
    });
    expect(named(found.reading, 'peakTemperature').value).toMatchObject({ kind: 'atLeast', value: 150 });
    expect(named(found.reading, 'temperatureAtFailure').ifBroken).toMatchObject({
      notEvaluated: { because: expect.stringContaining('cut off at full scale') },
    });
    expect(found.flags).toEqual(['signal.saturated', 'signal.too-smooth']);
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

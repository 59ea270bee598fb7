import { isNotEvaluated, type Layout } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { inventedHeatRun, ONE_STAGE } from './invented-heat.fixture.js';
import { BURSTS_AT, inventedRun } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';
import type { ReadRun, RunInput } from './run-input.js';

/** Rows of a text with one cell changed, told by the time of the row. */
function written(text: string, column: number, cell: (time: number, was: string) => string): string {
  return text.replaceAll(/^[\d.]+,.*$/gm, (row) => {
    const cells = row.split(',');
    return cells.with(column, cell(Number(cells[0]), cells[column] as string)).join(',');
  });
}

function withLayout(input: RunInput, over: Partial<Layout>): RunInput {
  if (!input.layout) throw new Error('no layout');
  return { ...input, layout: { ...input.layout, ...over } };
}

const traceOf = ({ traces }: ReadRun, channel: string) => traces.find((one) => one.channel === channel);
const kindOf = ({ reading }: ReadRun, name: string) => {
  const { value } = named(reading, name);
  return isNotEvaluated(value) ? 'not evaluated' : value.kind;
};

const OVERLOADED = [
  { column: 'P rim', channel: 'rimPressure', noReading: ['OL'] },
  { column: 'P rim 2', channel: 'rimPressure2', noReading: [''] },
];
const burst = (column: number, cell: (time: number, was: string) => string) =>
  readRun(withLayout(inventedRun({ text: (text) => written(text, column, cell) }), { columns: OVERLOADED }));
const faultless = readRun(inventedRun());

describe('a burst in which a sensor has no reading', () => {
  it('at its peak holds at least what was read', () => {
    const read = burst(1, (time, was) => (time > BURSTS_AT - 2 && time < BURSTS_AT + 1 ? 'OL' : was));
    expect(kindOf(faultless, 'burstPressure')).toBe('exact');
    expect(kindOf(read, 'burstPressure')).toBe('atLeast');
    expect(numberOf(read.reading, 'burstPressure')).toBeLessThan(numberOf(faultless.reading, 'burstPressure') - 30);
    expect(read.reading.flags).toContainEqual(
      expect.objectContaining({ code: 'time.gap', line: expect.any(Number), channel: 'time' }),
    );
  });

  it('in single samples far from the peak is what it was, and its trace has no such samples', () => {
    const read = burst(1, (time, was) => (time > 20 && time < 40 && time % 1 === 0 ? 'OL' : was));
    expect(kindOf(read, 'burstPressure')).toBe('exact');
    expect(numberOf(read.reading, 'burstPressure')).toBe(numberOf(faultless.reading, 'burstPressure'));
    const [rim, before] = [traceOf(read, 'rimPressure'), traceOf(faultless, 'rimPressure')];
    expect(rim?.time).toHaveLength((before?.time.length ?? 0) - 19);
    expect([...(rim?.time ?? [])]).not.toContain(30);
    expect(rim?.values.some(Number.isNaN)).toBe(false);
  });

  it('points at the row of the file after a gap, though rows are left out above it', () => {
    const gap = (over: (time: number) => boolean) =>
      burst(1, (time, was) => (over(time) ? 'OL' : was)).reading.flags.find(({ code }) => code === 'time.gap')?.line;
    const alone = gap((time) => time > 50 && time < 51);
    expect(alone).toBe(6 + 51 * 100);
    expect(gap((time) => time === 10 || (time > 50 && time < 51))).toBe(alone);
  });

  it('of a second sensor leaves the first alone, and draws what was read', () => {
    const read = burst(2, (time, was) => (time > 30 && time < 35 ? '' : was));
    expect(named(read.reading, 'burstPressure')).toEqual(named(faultless.reading, 'burstPressure'));
    const second = traceOf(read, 'rimPressure2');
    expect([...(second?.time ?? [])].some((time) => time > 30 && time < 35)).toBe(false);
    expect(second?.time.length).toBe(second?.values.length);
  });

  it('anywhere is too short to be read', () => {
    expect(() => burst(1, () => 'OL')).toThrow('the record has 0 rows with readings');
  });
});

describe('a layout’s scale', () => {
  it('turns round a sensor that is mounted the other way, and makes counts a pressure', () => {
    const turned = (text: string) => written(text, 1, (_, was) => String(-2 * Number(was)));
    const columns = [{ column: 'P rim', channel: 'rimPressure', scale: -0.5 }, OVERLOADED[1] as (typeof OVERLOADED)[1]];
    const read = readRun(withLayout(inventedRun({ text: turned }), { columns }));
    expect(numberOf(read.reading, 'burstPressure')).toBeCloseTo(numberOf(faultless.reading, 'burstPressure'), 9);
  });
});

describe('a file without metadata', () => {
  it('is the file of the run it came with', () => {
    const input = withLayout(inventedRun({ metadata: '' }), { metadata: 'none', requiredMetadata: [] });
    const read = readRun(input);
    expect(read.reading.characteristics).toEqual(faultless.reading.characteristics);
  });
});

const track = (column: string) => ({ column, channel: column, noReading: ['OL'] });
function heat(column: number, cell: (time: number, was: string) => string, columns: Layout['columns']): ReadRun {
  const input = inventedHeatRun({ ...ONE_STAGE, text: (text) => written(text, column, cell) });
  return readRun(withLayout(input, { columns: [{ column: 'speed', channel: 'surfaceSpeed' }, ...columns] }));
}
const whole = readRun(inventedHeatRun(ONE_STAGE));

describe('a drag in which a sensor has no reading', () => {
  it('while it is hot was at least as hot as it read', () => {
    const read = heat(3, (time, was) => (time > 100 && time < 260 ? 'OL' : was), [track('trackTemperatureLeft')]);
    expect(kindOf(whole, 'peakTemperature')).toBe('exact');
    expect(kindOf(read, 'peakTemperature')).toBe('atLeast');
    expect(kindOf(read, 'brakingEnergy')).toBe('atLeast');
  });

  it('from some moment to its end was at least as hot as it read', () => {
    const read = heat(3, (time, was) => (time > 150 ? 'OL' : was), [track('trackTemperatureLeft')]);
    expect(kindOf(read, 'peakTemperature')).toBe('atLeast');
    expect(kindOf(read, 'brakingEnergy')).toBe('atLeast');
  });

  it('before some moment braked at least what was read', () => {
    const read = heat(3, (time, was) => (time < 60 ? 'OL' : was), [track('trackTemperatureLeft')]);
    expect(kindOf(read, 'brakingEnergy')).toBe('atLeast');
  });

  it('for most rows, because it is slow, is read between them, and drawn where it was read', () => {
    const slow = { ...track('trackTemperatureLeft'), noReading: [''], sampledEvery: { value: 1, unit: 's' } };
    const read = heat(3, (time, was) => (Math.abs(time - Math.round(time)) < 1e-6 ? was : ''), [slow]);
    expect(kindOf(read, 'peakTemperature')).toBe('exact');
    // The sensor has 0.3 K of noise, and ten times fewer readings are averaged.
    expect(numberOf(read.reading, 'peakTemperature')).toBeCloseTo(numberOf(whole.reading, 'peakTemperature'), -0.5);
    expect(numberOf(read.reading, 'brakingEnergy') / numberOf(whole.reading, 'brakingEnergy')).toBeCloseTo(1, 3);
    const [left, right] = [traceOf(read, 'trackTemperatureLeft'), traceOf(read, 'trackTemperatureRight')];
    expect((right?.time.length ?? 0) / (left?.time.length ?? 1)).toBeCloseTo(10, 0);
  });
});

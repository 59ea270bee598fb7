import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededNormal } from '../runs/invented-run.fixture.js';
import { blocksInMemory } from './blocks-in-memory.fixture.js';
import { BLOCK_SAMPLES, blocksOf, traceFrom } from './trace-blocks.js';
import { traceWindow } from './trace-window.js';

const RATE = 10_000;

/** Noise with single samples that stand out, as a burst or a strike does. */
function invented(samples: number, seed: number) {
  const next = seededNormal(seed);
  const time = Float64Array.from({ length: samples }, (_, i) => i / RATE);
  const values = Float64Array.from({ length: samples }, () => next());
  for (let spike = 0; spike < 20; spike++) values[(spike * 7919 * seed) % samples] = 100 * next();
  return { time, values };
}

const LONG = invented(2 * BLOCK_SAMPLES + 1234, 3);
const BLOCKS = [...blocksOf(LONG)];
const END = LONG.time.at(-1) as number;

/** What lies in a window, looked for sample by sample. */
function bruteForce({ time, values }: typeof LONG, from: number, to: number) {
  const inside: { time: number[]; values: number[] } = { time: [], values: [] };
  for (const [i, when] of time.entries()) {
    if (when < from || when > to) continue;
    inside.time.push(when);
    inside.values.push(values[i] as number);
  }
  return inside;
}

describe('traceBlocks', () => {
  it('give the trace back bit for bit', () => {
    const back = traceFrom(BLOCKS);
    for (const name of ['time', 'values'] as const)
      expect(Buffer.compare(Buffer.from(back[name].buffer), Buffer.from(LONG[name].buffer))).toBe(0);
    expect(BLOCKS.map(({ samples }) => samples)).toEqual([BLOCK_SAMPLES, BLOCK_SAMPLES, 1234]);
  });

  it('refuse a trace with more times than values', () => {
    expect(() => [...blocksOf({ time: Float64Array.of(1, 2), values: Float64Array.of(1) })]).toThrow(
      '2 times and 1 values',
    );
  });
});

describe('traceWindow', () => {
  it('draws samples of the window, in order, no more than asked for, and hides no peak', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.double({ min: -1, max: END + 1, noNaN: true }),
        // Widths over every level, down to single samples.
        fc.double({ min: -5, max: 1.5, noNaN: true }),
        fc.integer({ min: 2, max: 2500 }),
        async (from, width, points) => {
          const to = from + 10 ** width;
          const { time, values, samples, whole } = await traceWindow(blocksInMemory(BLOCKS), { from, to, points });
          const all = bruteForce(LONG, from, to);
          expect(samples).toBe(all.time.length);
          expect(whole).toBe(samples <= points);
          expect(time.length).toBeLessThanOrEqual(points);
          if (whole) {
            expect([Array.from(time), Array.from(values)]).toEqual([all.time, all.values]);
            return;
          }
          for (const [i, when] of time.entries()) {
            if (values[i] !== LONG.values[Math.round(when * RATE)] || when <= (time[i - 1] ?? -Infinity))
              expect.fail(`point ${i} at ${when} s is no sample, or not after the one before`);
          }
          expect(Math.max(...values)).toBe(all.values.reduce((a, b) => Math.max(a, b)));
          expect(Math.min(...values)).toBe(all.values.reduce((a, b) => Math.min(a, b)));
          expectNothingHidden({ time, values }, all, samples, points);
        },
      ),
      { seed: 11, numRuns: 40 },
    );
  });

  /** Near every sample, within the width of a stretch on either side, stands a point at least as high and one as low. */
  function expectNothingHidden(
    drawn: { time: Float64Array; values: Float64Array },
    all: ReturnType<typeof bruteForce>,
    samples: number,
    points: number,
  ) {
    // A stretch of points is whole stored stretches, so that it can be longer than its share by one of them on each side.
    const near = (2 * (samples / Math.floor(points / 2)) + 65) / RATE;
    for (let i = 0; i < samples; i += 997) expectCovered(i);
    for (const [i, value] of all.values.entries()) if (Math.abs(value) > 5) expectCovered(i);

    function expectCovered(i: number) {
      const [when, value] = [all.time[i] as number, all.values[i] as number];
      const seen = Array.from(drawn.values).filter((_, k) => Math.abs((drawn.time[k] as number) - when) <= near);
      if (!(Math.max(...seen) >= value && Math.min(...seen) <= value))
        expect.fail(`the sample at ${when} s reads ${value}, and the points near it hide it`);
    }
  }

  it('reads no samples of a block that lies whole in a wide window', async () => {
    const source = blocksInMemory(BLOCKS);
    await traceWindow(source, { from: -1, to: END + 1, points: 200 });
    expect(source.read.samples).toBe(0);
    await traceWindow(source, { from: 0.5, to: END - 0.05, points: 200 });
    expect(source.read.samples).toBe(BLOCK_SAMPLES + 1234);
  });

  it('leaves out samples without a reading, and keeps the peak beside them', async () => {
    const values = LONG.values.slice().fill(Number.NaN, 100, 70_000);
    values[5000] = 7;
    const source = blocksInMemory([...blocksOf({ time: LONG.time, values })]);
    const wide = await traceWindow(source, { from: 0, to: END, points: 300 });
    expect(Array.from(wide.values).some(Number.isNaN)).toBe(false);
    expect(Array.from(wide.values)).toContain(7);
    const narrow = await traceWindow(source, { from: 0.4995, to: 0.5005, points: 300 });
    expect(Array.from(narrow.values)).toEqual([7]);
    expect(narrow).toMatchObject({ samples: 11, whole: true });
  });

  it('has nothing to draw outside of the trace, or between two samples', async () => {
    const source = blocksInMemory(BLOCKS);
    for (const window of [
      { from: -2, to: -1 },
      { from: END + 1, to: END + 2 },
      { from: 0.00011, to: 0.00019 },
    ])
      expect(await traceWindow(source, { ...window, points: 10 })).toMatchObject({ samples: 0, whole: true });
  });

  it('refuses a window that is none', async () => {
    const source = blocksInMemory(BLOCKS);
    await expect(traceWindow(source, { from: 2, to: 1, points: 10 })).rejects.toThrow('from must not lie after to');
    await expect(traceWindow(source, { from: 1, to: 2, points: 1 })).rejects.toThrow('at least 2');
  });
});

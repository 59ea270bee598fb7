import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlineOf } from './outline.js';

describe('outlineOf', () => {
  it('loses no spike: every value lies between the lowest and highest of some slice, and the extremes are kept', () => {
    const record = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 400 });
    fc.assert(
      fc.property(record, fc.integer({ min: 1, max: 50 }), (values, slices) => {
        const { lowest, highest, time } = outlineOf(
          values.map((_, index) => index / 10),
          values,
          slices,
        );
        expect(time.length).toBeLessThanOrEqual(slices);
        expect(Math.max(...highest)).toBe(Math.max(...values));
        expect(Math.min(...lowest)).toBe(Math.min(...values));
        for (const [index, low] of lowest.entries()) expect(low).toBeLessThanOrEqual(highest[index] as number);
      }),
    );
  });

  it('places each slice at its middle and leaves out slices without a sample', () => {
    expect(outlineOf([0, 1, 9, 10], [5, 7, 2, 3], 5)).toEqual({ time: [1, 9], lowest: [5, 2], highest: [7, 3] });
  });

  it('takes a record of one instant', () => {
    expect(outlineOf([4], [1842], 100)).toEqual({ time: [4], lowest: [1842], highest: [1842] });
  });

  it('refuses times and values that do not belong together', () => {
    expect(() => outlineOf([0, 1], [5], 3)).toThrow('as many times as values; got 2 times and 1 values');
  });
});

import { describe, expect, it } from 'vitest';
import { degreesAbove } from './degrees-above.js';

describe('degreesAbove', () => {
  const over = (values: number[], level: number, time = values.map((_, i) => i), gap = 2) =>
    degreesAbove(Float64Array.from(time), Float64Array.from(values), level, { from: 0, last: values.length - 1 }, gap);

  it('is the area of a triangle above the level, wherever the samples fall', () => {
    // Up 1 K/s from 0 to 10 and down again, above 4: base 12 s, height 6 K, area 36 K s.
    const triangle = Array.from({ length: 21 }, (_, i) => 10 - Math.abs(i - 10));
    expect(over(triangle, 4)).toBeCloseTo(36, 12);
    // Above 3.5 the crossings lie between samples: base 13, height 6.5.
    expect(over(triangle, 3.5)).toBeCloseTo((13 * 6.5) / 2, 12);
  });

  it('is height times time on a plateau, and nothing below', () => {
    expect(over([150, 150, 150, 150], 120)).toBeCloseTo(90, 12);
    expect(over([100, 110, 120], 120)).toBe(0);
  });

  it('adds nothing over a gap', () => {
    expect(over([150, 150, 150], 120, [0, 1, 9])).toBeCloseTo(30, 12);
  });
});

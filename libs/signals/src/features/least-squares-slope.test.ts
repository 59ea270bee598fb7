import { describe, expect, it } from 'vitest';
import { leastSquaresSlope } from './least-squares-slope.js';

describe('leastSquaresSlope', () => {
  // Anscombe (1973), The American Statistician 27, 17-21, first data set: slope 0.500.
  it('gives the slope of the first data set of Anscombe', () => {
    const x = Float64Array.of(10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5);
    const y = Float64Array.of(8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68);
    expect(leastSquaresSlope(x, y)).toBeCloseTo(0.5001, 4);
  });

  it('is exact on a straight line far from zero', () => {
    const x = Float64Array.from({ length: 1000 }, (_, i) => 1e6 + i * 0.01);
    const y = x.map((value) => 20 * value - 7);
    expect(leastSquaresSlope(x, y)).toBeCloseTo(20, 7);
    expect(leastSquaresSlope(x, y, 10, 13)).toBeCloseTo(20, 4);
  });

  it('refuses a single point', () => {
    expect(() => leastSquaresSlope(Float64Array.of(1), Float64Array.of(1))).toThrow('at least 2 points; got 1');
  });
});

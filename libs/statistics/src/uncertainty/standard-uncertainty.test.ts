import { describe, expect, it } from 'vitest';
import { fromExpanded, standardUncertainty } from './standard-uncertainty.js';

describe('standardUncertainty', () => {
  // JCGM 100:2008, 4.3.7 (1/sqrt 3) and 4.3.9 (1/sqrt 6); JCGM 101:2008, 6.4.6 (1/sqrt 2).
  it.each([
    ['rectangular', 0.5773502691896258],
    ['triangular', 0.4082482904638631],
    ['u-shaped', 0.7071067811865475],
  ] as const)('of a %s half width of 1 is %d', (shape, u) => {
    expect(standardUncertainty(1, shape)).toBeCloseTo(u, 14);
  });

  it('refuses a half width of nothing', () => {
    expect(() => standardUncertainty(0, 'rectangular')).toThrow('halfWidth must be a finite number above 0; got 0');
  });
});

describe('fromExpanded', () => {
  // JCGM 100:2008, 4.3.3, example: a mass standard with 240 µg at "three standard deviations" has u = 80 µg.
  it('divides by the coverage factor', () => {
    expect(fromExpanded(240, 3)).toBe(80);
  });
});

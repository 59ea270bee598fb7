import { describe, expect, it } from 'vitest';
import { andersonDarling } from './anderson-darling.js';

const STRENGTHS = [41.2, 44.8, 46.1, 47.9, 50.3, 52];

describe('andersonDarling', () => {
  it('knows no unit', () => {
    for (const distribution of ['normal', 'lognormal', 'weibull'] as const) {
      const kilo = andersonDarling({ exact: STRENGTHS.map((value) => value / 1000) }, distribution);
      expect(kilo).toMatchObject({
        statistic: expect.closeTo(
          (andersonDarling({ exact: STRENGTHS }, distribution) as { statistic: number }).statistic,
          9,
        ),
      });
    }
  });

  it('says the same of values as normal and of their exponentials as lognormal', () => {
    const normal = andersonDarling({ exact: [1, 2, 2.5, 3, 5] }, 'normal');
    const lognormal = andersonDarling({ exact: [1, 2, 2.5, 3, 5].map(Math.exp) }, 'lognormal');
    expect((lognormal as { statistic: number }).statistic).toBeCloseTo((normal as { statistic: number }).statistic, 12);
  });

  // Stephens (1974), J. Amer. Statist. Assoc. 69, 730-737, table 1A (from memory): 5 % points of the adjusted statistic
  // are 0.787 for normal and 0.757 for Weibull; the handbook's curves must give 0.05 there.
  it('gives 5 % at the published 5 % points', () => {
    const significance = (adjusted: number, [a, b, c]: [number, number, number]) =>
      1 / (1 + Math.exp(a + b * Math.log(adjusted) + c * adjusted));
    expect(significance(0.787, [-0.48, 0.78, 4.58])).toBeCloseTo(0.05, 3);
    expect(significance(0.757, [-0.1, 1.24, 4.48])).toBeCloseTo(0.05, 3);
    for (const distribution of ['normal', 'weibull'] as const) {
      const found = andersonDarling({ exact: STRENGTHS }, distribution) as { adjusted: number; significance: number };
      const curve: [number, number, number] = distribution === 'normal' ? [-0.48, 0.78, 4.58] : [-0.1, 1.24, 4.48];
      expect(found.significance).toBeCloseTo(significance(found.adjusted, curve), 12);
    }
  });

  it('keeps its digits where one value lies far beyond all others', () => {
    const far = [...Array.from({ length: 4000 }, (_, index) => 100 + (index % 7)), 1e9];
    for (const distribution of ['normal', 'lognormal'] as const)
      expect(andersonDarling({ exact: far }, distribution)).toMatchObject({
        statistic: expect.any(Number),
        significance: 0,
      });
  });

  it.each([
    [{ exact: STRENGTHS, atLeast: [60] }, 'not known exactly'],
    [{ exact: STRENGTHS, between: [[1, 2]] as [number, number][] }, 'not known exactly'],
    [{ exact: [1, 2, 3, 4] }, 'too few'],
    [{ exact: [] }, 'too few'],
    [{ exact: [7, 7, 7, 7, 7] }, 'all values are the same'],
  ])('says why %j is not evaluated', (sample, because) => {
    expect(andersonDarling(sample, 'weibull')).toMatchObject({
      notEvaluated: { because: expect.stringContaining(because) },
    });
  });

  it('refuses a strength that has no logarithm', () => {
    expect(() => andersonDarling({ exact: [0, 1, 2, 3, 4] }, 'lognormal')).toThrow('above 0');
  });
});

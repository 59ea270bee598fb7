import { describe, expect, it } from 'vitest';
import { meanOverLimitFor, scatterFor, shareBelow, weibullShapeFor } from './margin-for-share.js';

const FAMILIES = ['normal', 'lognormal', 'weibull'] as const;

describe('shareBelow', () => {
  // Mean 1.25 limits, cv 0.1: the limit lies 2 standard deviations below a normal mean, Phi(-2) = 0.02275 (any table).
  it('is a normal table for a normal population', () => {
    expect(shareBelow('normal', 1.25, 0.1)).toBeCloseTo(0.0227501, 6);
  });

  // A Weibull distribution of shape 1 is the exponential: cv 1, share below its mean 1 - 1/e.
  it('is 1 - 1/e below the mean of an exponential', () => {
    expect(weibullShapeFor(1)).toBeCloseTo(1, 9);
    expect(shareBelow('weibull', 1, 1)).toBeCloseTo(1 - Math.exp(-1), 9);
  });

  it.each(FAMILIES)('is undone by its inverses for a %s population', (family) => {
    for (const share of [1e-6, 0.001, 0.1])
      for (const cv of [0.03, 0.08, 0.15]) {
        const mean = meanOverLimitFor(family, share, cv) as number;
        expect(shareBelow(family, mean, cv) / share).toBeCloseTo(1, 8);
        expect(scatterFor(family, share, mean)).toBeCloseTo(cv, 6);
      }
  });

  it('has no mean large enough for a wide normal scatter', () => {
    expect(meanOverLimitFor('normal', 1e-6, 0.3)).toBeUndefined();
  });
});

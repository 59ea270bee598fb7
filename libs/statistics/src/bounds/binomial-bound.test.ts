import { describe, expect, it } from 'vitest';
import { hypergeometricCdf } from '../distributions/hypergeometric.js';
import { type BinomialBound, binomialBound } from './binomial-bound.js';
import { zeroFailureBound } from './zero-failure-bound.js';

function bounded(count: Parameters<typeof binomialBound>[0]): BinomialBound {
  const bound = binomialBound(count);
  if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
  return bound;
}

describe('binomialBound', () => {
  // SciPy 1.17: binomtest(3, 20).proportion_ci(0.95, 'exact'), equal to binom.test of R 4.2.2.
  it('gives the limits of Clopper and Pearson', () => {
    const { failureLimits } = bounded({ n: 20, failures: 3, confidence: 0.95 });
    expect(failureLimits).toEqual([expect.closeTo(0.0320709371854637, 12), expect.closeTo(0.37892682654531396, 12)]);
  });

  it('claims nothing when every specimen failed', () => {
    expect(bounded({ n: 20, failures: 20, confidence: 0.95 })).toMatchObject({
      reliabilityLower: 0,
      failureLimits: [expect.closeTo(0.8315665290169146, 12), 1],
    });
  });

  it('says why, and what would help, when nothing was tested', () => {
    expect(binomialBound({ n: 0, failures: 0, confidence: 0.95 })).toMatchObject({
      notEvaluated: { because: 'no specimen was tested', possibleIf: 'at least 1 specimen is tested' },
    });
  });

  it('nears the bound of the process as the lot grows', () => {
    const process = bounded({ n: 22, failures: 1, confidence: 0.9 });
    const lot = bounded({ n: 22, failures: 1, confidence: 0.9, lotSize: 1_000_000 });
    expect(lot.reliabilityLower).toBeCloseTo(process.reliabilityLower, 4);
    expect(lot.failureLimits[0]).toBeCloseTo(process.failureLimits[0], 4);
  });

  it('knows the whole lot once all of it was tested', () => {
    expect(bounded({ n: 40, failures: 2, confidence: 0.99, lotSize: 40 })).toMatchObject({
      reliabilityLower: 0.95,
      failureLimits: [0.05, 0.05],
    });
  });

  // For every number of bad units the lot could have, the chances of all samples in which the claim is true.
  it('keeps its confidence whatever the lot is like', () => {
    const [lotSize, n, confidence] = [30, 12, 0.9];
    for (let bad = 0; bad <= lotSize; bad++) {
      let [claimHolds, limitsHold] = [0, 0];
      for (let failures = Math.max(0, n + bad - lotSize); failures <= Math.min(n, bad); failures++) {
        const draw = { size: lotSize, marked: bad, drawn: n };
        const chance = hypergeometricCdf(failures, draw) - hypergeometricCdf(failures - 1, draw);
        const { reliabilityLower, failureLimits } = bounded({ n, failures, confidence, lotSize });
        if ((lotSize - bad) / lotSize >= reliabilityLower - 1e-12) claimHolds += chance;
        if (bad / lotSize >= failureLimits[0] - 1e-12 && bad / lotSize <= failureLimits[1] + 1e-12)
          limitsHold += chance;
      }
      expect(claimHolds).toBeGreaterThanOrEqual(confidence - 1e-12);
      expect(limitsHold).toBeGreaterThanOrEqual(confidence - 1e-12);
    }
  });

  it('refuses more failures than specimens, and more specimens than the lot has', () => {
    expect(() => binomialBound({ n: 5, failures: 6, confidence: 0.9 })).toThrow('6 failures among 5');
    expect(() => binomialBound({ n: 5, failures: 0, confidence: 0.9, lotSize: 4 })).toThrow('lot of 4');
  });
});

describe('zeroFailureBound', () => {
  // SciPy 1.17: binomtest(n, n, alternative='greater').proportion_ci(c, 'exact').low.
  it.each([
    { survivors: 22, confidence: 0.9, reliability: 0.900628020211 },
    { survivors: 59, confidence: 0.95, reliability: 0.950492390112 },
  ])('gives $reliability for $survivors survivors at $confidence', ({ survivors, confidence, reliability }) => {
    expect(zeroFailureBound(survivors, confidence)).toHaveProperty('reliability', expect.closeTo(reliability, 11));
  });

  it('claims more of a small lot than of a process', () => {
    expect(zeroFailureBound(22, 0.9, { lotSize: 40 })).toMatchObject({ reliability: 0.95, lotSize: 40 });
  });

  it('says why, and what would help, when nothing was tested', () => {
    expect(zeroFailureBound(0, 0.95)).toMatchObject({ notEvaluated: { because: 'no specimen was tested' } });
  });

  it('refuses a confidence given in percent', () => {
    expect(() => zeroFailureBound(59, 95)).toThrow('confidence must lie between 0 and 1; got 95');
  });
});

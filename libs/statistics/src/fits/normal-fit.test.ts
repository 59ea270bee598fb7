import type { Sample } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { summary } from '../description/summary.js';
import { estimateLognormal, fitLognormal, type LognormalFit, lognormalLogLikelihood } from './lognormal-fit.js';
import { fitNormal, type NormalFit, normalLogLikelihood } from './normal-fit.js';

function normal(sample: Sample, options: Parameters<typeof fitNormal>[1] = {}): NormalFit {
  const fit = fitNormal(sample, options);
  if ('notEvaluated' in fit) throw new Error(fit.notEvaluated.because);
  return fit;
}

function lognormal(sample: Sample, options: Parameters<typeof fitLognormal>[1] = {}): LognormalFit {
  const fit = fitLognormal(sample, options);
  if ('notEvaluated' in fit) throw new Error(fit.notEvaluated.because);
  return fit;
}

describe('fitNormal', () => {
  // mpmath 1.3, 30 digits: findroot on the gradient of ln L, and on the two equations of a profile limit.
  it('fits intervals and one-sided strengths beside exact ones, below 0 too', () => {
    const between: [number, number][] = [
      [-3, -1],
      [-2, 2],
      [1, 3],
      [-4, -3],
    ];
    const fit = normal({ between, exact: [-1], atMost: [-2], atLeast: [0] }, { quantiles: [0.1] });
    expect(fit).toMatchObject({
      n: 7,
      failures: 6,
      mean: expect.closeTo(-0.9774112861931197, 11),
      sd: expect.closeTo(2.0828946657170597, 11),
      logLikelihood: expect.closeTo(-9.885515576150464, 11),
    });
    expect(fit.limits.sd).toEqual([expect.closeTo(1.1581087904408185, 9), expect.closeTo(4.775122526369285, 9)]);
    expect(fit.quantiles[0]?.limits).toEqual([
      expect.closeTo(-7.953046380683901, 9),
      expect.closeTo(-1.8741169433707576, 9),
    ]);
  });

  it('has no finite fit where nothing limits the scatter, and says why', () => {
    expect(fitNormal({ exact: [4, 4, 4] })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('strictly below the largest') },
    });
    expect(fitNormal({ atLeast: [4, 5] })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('no specimen broke') },
    });
  });

  it('agrees with the likelihood at its own estimates, which is nowhere higher near by', () => {
    const sample = { exact: [-2, 1, 4, 7], atLeast: [3], between: [[0, 2]] as [number, number][] };
    const { mean, sd, logLikelihood } = normal(sample);
    expect(normalLogLikelihood(sample, { mean, sd })).toBeCloseTo(logLikelihood, 12);
    for (const [shift, stretch] of [
      [0.05, 1],
      [-0.05, 1],
      [0, 1.02],
      [0, 0.98],
    ] as const)
      expect(normalLogLikelihood(sample, { mean: mean + shift, sd: sd * stretch })).toBeLessThan(logLikelihood);
  });
});

const strengths = fc
  .array(fc.integer({ min: 300, max: 2000 }), { minLength: 3, maxLength: 15 })
  .filter((values) => new Set(values).size > 1);
const samples = fc.record({
  exact: strengths,
  atLeast: fc.array(fc.integer({ min: 200, max: 2500 }), { maxLength: 4 }),
  atMost: fc.array(fc.integer({ min: 300, max: 2500 }), { maxLength: 2 }),
});

describe('any normal or lognormal fit', () => {
  it('of a complete sample is its mean and scatter', () => {
    fc.assert(
      fc.property(strengths, (exact) => {
        const plain = summary(exact);
        const logarithmic = summary(exact.map(Math.log));
        if ('notEvaluated' in plain || 'notEvaluated' in logarithmic) throw new Error('there are values');
        const divisor = Math.sqrt((exact.length - 1) / exact.length);
        expect(normal({ exact }).mean / plain.mean).toBeCloseTo(1, 11);
        expect(normal({ exact }).sd / ((plain.sd as number) * divisor)).toBeCloseTo(1, 9);
        expect(lognormal({ exact }).logMean / logarithmic.mean).toBeCloseTo(1, 11);
        expect(lognormal({ exact }).logSd / ((logarithmic.sd as number) * divisor)).toBeCloseTo(1, 9);
      }),
      { numRuns: 60 },
    );
  });

  it('moves with the unit and not with the order', () => {
    fc.assert(
      fc.property(samples, fc.constantFrom(0.145, 6.894757, 1e-3, 1e6), (sample, unit) => {
        const there = {
          exact: sample.exact.map((x) => x * unit).reverse(),
          atLeast: sample.atLeast.map((x) => x * unit).reverse(),
          atMost: sample.atMost.map((x) => x * unit).reverse(),
        };
        const [a, b] = [normal(sample, { quantiles: [0.1] }), normal(there, { quantiles: [0.1] })];
        expect(b.mean / unit / a.mean).toBeCloseTo(1, 8);
        expect(b.sd / unit / a.sd).toBeCloseTo(1, 8);
        const lowerA = a.quantiles[0]?.lower as number;
        const lowerB = b.quantiles[0]?.lower as number;
        expect(Math.abs(lowerB / unit - lowerA)).toBeLessThan(1e-6 * (Math.abs(lowerA) + a.sd));
        const [c, d] = [lognormal(sample), lognormal(there)];
        expect(d.logMean - Math.log(unit)).toBeCloseTo(c.logMean, 7);
        expect(d.logSd / c.logSd).toBeCloseTo(1, 7);
      }),
      { numRuns: 60 },
    );
  });

  it('of strengths and of their logarithms is one and the same', () => {
    fc.assert(
      fc.property(samples, (sample) => {
        const logarithms = {
          exact: sample.exact.map(Math.log),
          atLeast: sample.atLeast.map(Math.log),
          atMost: sample.atMost.map(Math.log),
        };
        const fit = normal(logarithms, { quantiles: [0.05] });
        const same = lognormal(sample, { quantiles: [0.05] });
        expect(same.logMean).toBeCloseTo(fit.mean, 9);
        expect(same.logSd).toBeCloseTo(fit.sd, 9);
        expect(Math.log(same.quantiles[0]?.lower as number)).toBeCloseTo(fit.quantiles[0]?.lower as number, 6);
        const jacobian = sample.exact.reduce((sum, x) => sum + Math.log(x), 0);
        expect(same.logLikelihood).toBeCloseTo(fit.logLikelihood - jacobian, 7);
      }),
      { numRuns: 60 },
    );
  });

  it('never estimates less survival beyond what a survivor held, when it held more', () => {
    fc.assert(
      fc.property(samples, fc.integer({ min: 1, max: 800 }), (sample, more) => {
        fc.pre(sample.atLeast.length > 0);
        const [held, ...others] = sample.atLeast as [number, ...number[]];
        const raised = { ...sample, atLeast: [held + more, ...others] };
        const [before, after] = [estimateLognormal(sample), estimateLognormal(raised)];
        if ('notEvaluated' in before || 'notEvaluated' in after) throw new Error('both have a fit');
        // The log-likelihood of a lone survivor is the logarithm of the share that holds as much.
        const log = (strength: number, fit: typeof before) =>
          lognormalLogLikelihood({ atLeast: [strength] }, { logMean: fit.logMean, logSd: fit.logSd });
        const holdOn = (fit: typeof before) => log(held + more, fit) - log(held, fit);
        expect(holdOn(after)).toBeGreaterThanOrEqual(holdOn(before) - 1e-9);
      }),
      { numRuns: 100 },
    );
  });
});

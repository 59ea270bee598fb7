import type { Sample } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type WeibullParameters, weibullSurvival } from '../distributions/weibull.js';
import { estimateWeibull, fitWeibull, type WeibullFit, weibullLogLikelihood } from './weibull-fit.js';

function fitted(sample: Sample, options: Parameters<typeof fitWeibull>[1] = {}): WeibullFit {
  const fit = fitWeibull(sample, options);
  if ('notEvaluated' in fit) throw new Error(fit.notEvaluated.because);
  return fit;
}

describe('fitWeibull', () => {
  // Lieblein and Zelen (1956), J. Res. NBS 57, 273-316: endurance of 23 deep-groove ball bearings, millions of
  // revolutions; estimates as printed in Leemis (2009), Reliability, example 8.1.
  it('fits the bearing lives of Lieblein and Zelen', () => {
    const lives = [
      17.88, 28.92, 33, 41.52, 42.12, 45.6, 48.48, 51.84, 51.96, 54.12, 55.56, 67.8, 68.64, 68.64, 68.88, 84.12, 93.12,
      98.64, 105.12, 105.84, 127.92, 128.04, 173.4,
    ];
    const { shape, scale } = fitted({ exact: lives });
    expect(shape.toFixed(3)).toBe('2.102');
    expect(scale.toFixed(2)).toBe('81.88');
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.1.3: 10 of 20 units fail before 500 h.
  it('fits the censored example of the NIST handbook', () => {
    const hours = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386];
    const { shape, scale, logLikelihood } = fitted({ exact: hours, atLeast: Array(10).fill(500) });
    expect(shape.toFixed(4)).toBe('1.7208');
    expect(scale.toFixed(2)).toBe('606.53');
    expect(logLikelihood.toFixed(3)).toBe('-75.135');
  });

  // mpmath 1.3, 30 digits: findroot on the gradient of ln L, and on the two equations of a profile limit.
  it('fits intervals and one-sided strengths beside exact ones', () => {
    const between: [number, number][] = [
      [3, 5],
      [4, 8],
      [7, 9],
      [2, 3],
    ];
    const fit = fitted({ between, exact: [5], atMost: [4], atLeast: [6] }, { quantiles: [0.1] });
    expect(fit).toMatchObject({
      n: 7,
      failures: 6,
      shape: expect.closeTo(2.664223939459178, 11),
      scale: expect.closeTo(5.700730194655156, 11),
      logLikelihood: expect.closeTo(-9.74999535839986, 12),
    });
    expect(fit.limits.shape).toEqual([expect.closeTo(1.120673333303742, 10), expect.closeTo(5.097862641205165, 10)]);
    expect(fit.quantiles[0]?.limits).toEqual([
      expect.closeTo(0.6618188003031941, 10),
      expect.closeTo(4.106919218466017, 10),
    ]);
  });

  // mpmath 1.3, 30 digits, the same way.
  it('fits strengths that are all known from one side only, and says which limits do not exist', () => {
    const fit = fitted({ atMost: [5, 12, 9], atLeast: [3, 10, 4] });
    expect(fit.shape).toBeCloseTo(1.487335742264799, 10);
    expect(fit.scale).toBeCloseTo(8.673085661485382, 10);
    expect(fit.limits.shape).toEqual([
      { notEvaluated: expect.objectContaining({ because: expect.stringContaining('falls too little') }) },
      expect.any(Number),
    ]);
  });

  it.each([
    { why: 'no specimen broke', sample: { atLeast: [10, 12, 15] } },
    { why: 'strictly below the largest value', sample: { atLeast: [10, 12], exact: [15] } },
    { why: 'strictly below the largest value', sample: { exact: [20, 20, 20] } },
    { why: 'strictly below the largest value', sample: { exact: [20] } },
    { why: 'one single strength would explain', sample: { atMost: [20, 22], atLeast: [15] } },
    {
      why: 'one single strength would explain',
      sample: {
        between: [
          [4, 9],
          [6, 12],
        ] as [number, number][],
      },
    },
    { why: 'no more often at higher values', sample: { atMost: [5], atLeast: [10] } },
    { why: 'the sample is empty', sample: {} },
  ])('has no finite fit, and says why: $why', ({ why, sample }) => {
    expect(fitWeibull(sample)).toMatchObject({ notEvaluated: { because: expect.stringContaining(why) } });
  });

  it('takes "held at least 0" as saying nothing, and "between 0 and b" as at most b', () => {
    const plain = fitted({ exact: [5, 6, 8], atMost: [7] });
    const said = fitted({ exact: [5, 6, 8], between: [[0, 7]], atLeast: [0] });
    expect(said).toMatchObject({ n: 5, failures: 4, shape: expect.closeTo(plain.shape, 12) });
  });

  it('refuses a strength of 0 and a percentage', () => {
    expect(() => fitWeibull({ exact: [5, 0] })).toThrow('exact[1] is 0; a strength is a finite number above 0');
    expect(() => fitWeibull({ exact: [5, 6] }, { confidence: 95 })).toThrow('must lie between 0 and 1; got 95');
  });

  it('agrees with the likelihood at its own estimates, which is nowhere higher near by', () => {
    const sample = { exact: [38.1, 42.7, 45.6, 47.9], atLeast: [40, 45, 45, 50] };
    const { shape, scale, logLikelihood } = fitted(sample);
    expect(weibullLogLikelihood(sample, { shape, scale })).toBeCloseTo(logLikelihood, 12);
    for (const [b, c] of [
      [1.01, 1],
      [0.99, 1],
      [1, 1.001],
      [1, 0.999],
    ] as const)
      expect(weibullLogLikelihood(sample, { shape: shape * b, scale: scale * c })).toBeLessThan(logLikelihood);
  });
});

const weibullLogSurvival = (value: number, { shape, scale }: WeibullParameters) => -((value / scale) ** shape);

const strengths = fc.array(fc.integer({ min: 300, max: 2000 }), { minLength: 3, maxLength: 15 });
const samples = fc
  .record({ exact: strengths, atLeast: fc.array(fc.integer({ min: 200, max: 2500 }), { maxLength: 6 }) })
  .filter(({ exact, atLeast }) => Math.min(...exact) < Math.max(...exact, ...atLeast));

describe('any Weibull fit', () => {
  it('does not depend on the unit', () => {
    fc.assert(
      fc.property(samples, fc.constantFrom(0.145, 6.894757, 1e-3, 1e6), ({ exact, atLeast }, unit) => {
        const here = fitted({ exact, atLeast }, { quantiles: [0.1] });
        const there = fitted(
          { exact: exact.map((x) => x * unit), atLeast: atLeast.map((x) => x * unit) },
          { quantiles: [0.1] },
        );
        expect(there.shape / here.shape).toBeCloseTo(1, 8);
        expect(there.scale / (here.scale * unit)).toBeCloseTo(1, 8);
        const [lowHere, lowThere] = [here.quantiles[0]?.lower as number, there.quantiles[0]?.lower as number];
        expect(lowThere / (lowHere * unit)).toBeCloseTo(1, 7);
      }),
      { numRuns: 60 },
    );
  });

  it('does not depend on the order', () => {
    fc.assert(
      fc.property(samples, ({ exact, atLeast }) => {
        const there = fitted({ exact: exact.toReversed(), atLeast: atLeast.toReversed() });
        expect(there.shape / fitted({ exact, atLeast }).shape).toBeCloseTo(1, 10);
      }),
      { numRuns: 40 },
    );
  });

  // The likelihood of the raised sample is the old one times S(to) / S(from), so its maximum cannot have less of it.
  it('never estimates that fewer of those who held the old value hold the new one, when a survivor held more', () => {
    fc.assert(
      fc.property(samples, fc.integer({ min: 1, max: 800 }), ({ exact, atLeast }, more) => {
        fc.pre(atLeast.length > 0);
        const before = estimateWeibull({ exact, atLeast });
        const raised = estimateWeibull({ exact, atLeast: atLeast.map((x, index) => (index === 0 ? x + more : x)) });
        if ('notEvaluated' in before || 'notEvaluated' in raised) throw new Error('both have a fit');
        const from = atLeast[0] as number;
        const holdOn = (fit: WeibullParameters) => weibullLogSurvival(from + more, fit) - weibullLogSurvival(from, fit);
        expect(holdOn(raised)).toBeGreaterThanOrEqual(holdOn(before) - 1e-9);
      }),
      { numRuns: 100 },
    );
  });

  it('never estimates less survival at the value a survivor held, when it is kept instead of dropped', () => {
    fc.assert(
      fc.property(samples, ({ exact, atLeast }) => {
        fc.pre(atLeast.length > 0 && new Set(exact).size > 1);
        const [dropped, ...others] = atLeast;
        const kept = estimateWeibull({ exact, atLeast });
        const without = estimateWeibull({ exact, atLeast: others });
        if ('notEvaluated' in kept || 'notEvaluated' in without) throw new Error('both have a fit');
        const held = dropped as number;
        expect(weibullSurvival(held, kept)).toBeGreaterThanOrEqual(weibullSurvival(held, without) - 1e-9);
      }),
      { numRuns: 100 },
    );
  });

  it('has wider limits at higher confidence', () => {
    fc.assert(
      fc.property(samples, (sample) => {
        const [narrow, wide] = [0.8, 0.95].map((confidence) => fitted(sample, { confidence }));
        expect(wide?.limits.shape[0] as number).toBeLessThan(narrow?.limits.shape[0] as number);
        expect(wide?.limits.scale[1] as number).toBeGreaterThan(narrow?.limits.scale[1] as number);
      }),
      { numRuns: 40 },
    );
  });
});

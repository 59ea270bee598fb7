import { describe, expect, it } from 'vitest';
import { tAbove } from '../distributions/student-t.js';
import { seededGenerator } from '../random/generator.js';
import { minimumOfFuture } from './normal-minimum.js';
import { chanceAllAbove } from './order-statistic-prediction.js';
import { type PredictionBound, type PredictionQuestion, predictionBound } from './prediction-bound.js';
import {
  predictionProbability,
  predictionProbabilityByRank,
  predictionProbabilityKnown,
} from './prediction-probability.js';

const STRENGTHS = [201, 214, 220, 233, 247];
const LIFE = { exact: [5.88, 6.74, 6.9, 6.98, 7.21, 8.14, 8.59], atLeast: [8.59, 8.59, 8.59] };

function bounded(
  question: Omit<PredictionQuestion, 'basis'> & Partial<Pick<PredictionQuestion, 'basis'>>,
): PredictionBound {
  const found = predictionBound({ basis: { sample: { exact: STRENGTHS } }, ...question });
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('minimumOfFuture', () => {
  it('is Student t for a single future value, for very few and for very many values', () => {
    for (const n of [2, 3, 10, 1000])
      for (const factor of [-2, 0, 1.5, 6]) {
        const { above, below } = minimumOfFuture(n, 1)(factor);
        const t = factor / Math.sqrt(1 + 1 / n);
        expect(Math.abs(below / tAbove(t, n - 1) - 1)).toBeLessThan(1e-11);
        expect(above + below).toBeCloseTo(1, 12);
      }
  });

  it('is the order of n + m values where the factor is 0 and n is 2: all above the mean of two', () => {
    // Of m values and the mean of 2, all m above: E of Phi(-z)^m with z of variance 1/2; for m = 2 by the angle between
    // two correlated normals, 1/4 + arcsin(1/3) / (2 pi) (Sheppard 1899).
    expect(minimumOfFuture(2, 2)(0).above).toBeCloseTo(0.25 + Math.asin(1 / 3) / (2 * Math.PI), 12);
  });

  it('knows its own slope', () => {
    const share = minimumOfFuture(5, 20);
    expect(share(3).slope).toBeCloseTo((share(3 + 1e-5).above - share(3 - 1e-5).above) / 2e-5, 7);
  });
});

describe('predictionBound', () => {
  it.each(['normal', 'lognormal', 'weibull'] as const)(
    'is undone by the probability, for %s strengths',
    (distribution) => {
      for (const confidence of [0.5, 0.9, 0.99]) {
        const { bound } = bounded({ distribution, confidence, m: 4, of: 'all' });
        const back = predictionProbability({ basis: { sample: { exact: STRENGTHS } }, distribution, m: 4, x: bound });
        expect(back).toMatchObject({ probability: expect.closeTo(1 - confidence, 9) });
      }
    },
  );

  it('asks more of all units than of one, and less of their mean', () => {
    for (const distribution of ['normal', 'weibull'] as const) {
      const one = bounded({ distribution, confidence: 0.9, m: 4, of: 'one' }).bound;
      expect(bounded({ distribution, confidence: 0.9, m: 4, of: 'all' }).bound).toBeLessThan(one);
      expect(bounded({ distribution, confidence: 0.9, m: 1, of: 'all' }).bound).toBeCloseTo(one, 9);
    }
    expect(bounded({ distribution: 'normal', confidence: 0.9, m: 4, of: 'mean' }).bound).toBeGreaterThan(
      bounded({ distribution: 'normal', confidence: 0.9, m: 4, of: 'one' }).bound,
    );
  });

  it('rests as well on mean and standard deviation', () => {
    const sample = bounded({ distribution: 'normal', confidence: 0.95, m: 3, of: 'all' });
    const summed = bounded({
      basis: { n: 5, mean: 223, sd: Math.sqrt(1250 / 4) },
      distribution: 'normal',
      confidence: 0.95,
      m: 3,
      of: 'all',
    });
    expect(summed.bound).toBeCloseTo(sample.bound, 9);
  });

  // Python 3.11 and NumPy: the posterior of location and scale of ln strength with prior 1 / scale on a grid of 1600 by
  // 4001 points, 1 - exp(-m (x / scale)^shape) averaged over it; good to about 1e-8.
  it.each([
    [{ exact: STRENGTHS }, 1, 180, 0.0749620524],
    [{ exact: STRENGTHS }, 3, 180, 0.1882404366],
    [LIFE, 5, 5, 0.2324440418],
  ])('agrees with a grid for the Weibull sample %j, m = %d', (sample, m, x, probability) => {
    expect(predictionProbability({ basis: { sample }, distribution: 'weibull', m, x })).toMatchObject({
      probability: expect.closeTo(probability, 7),
    });
  });

  it('holds as often as it says for Weibull strengths, complete and ended at the fifth break', () => {
    const generator = seededGenerator(20);
    const parameters = { shape: 8, scale: 300 };
    const trials = 1500;
    for (const failures of [8, 5]) {
      let held = 0;
      for (let trial = 0; trial < trials; trial++) {
        const tested = Array.from({ length: 8 }, () => generator.weibull(parameters)).sort((a, b) => a - b);
        const exact = tested.slice(0, failures);
        const atLeast = tested.slice(failures).map(() => exact.at(-1) as number);
        const { bound } = bounded({
          basis: { sample: { exact, atLeast } },
          distribution: 'weibull',
          confidence: 0.9,
          m: 3,
          of: 'all',
        });
        if (Math.min(...Array.from({ length: 3 }, () => generator.weibull(parameters))) > bound) held++;
      }
      expect(Math.abs(held / trials - 0.9)).toBeLessThan(3.5 * Math.sqrt(0.09 / trials));
    }
  });

  it('takes the weakest strength it may where no distribution is assumed', () => {
    const sample = { exact: Array.from({ length: 40 }, (_, index) => index + 1) };
    const found = bounded({ basis: { sample }, distribution: 'distribution-free', confidence: 0.9, m: 2, of: 'all' });
    expect(found).toMatchObject({ rank: 2, bound: 2, achievedConfidence: expect.closeTo((40 * 39) / (42 * 41), 12) });
    expect(chanceAllAbove(40, 2, 3)).toBeLessThan(0.9);
    expect(predictionProbabilityByRank(40, 2, 2).probability).toBeCloseTo(1 - found.achievedConfidence, 12);
  });

  it.each([
    [{ distribution: 'normal', of: 'all' }, { sample: { exact: STRENGTHS, atLeast: [250] } }, 'not known exactly'],
    [{ distribution: 'normal', of: 'all' }, { sample: { exact: [5] } }, 'nothing about scatter'],
    [{ distribution: 'lognormal', of: 'one' }, { sample: { exact: [5, 5] } }, 'the same number'],
    [{ distribution: 'lognormal', of: 'mean' }, { sample: { exact: STRENGTHS } }, 'mean of several lognormal'],
    [{ distribution: 'weibull', of: 'mean' }, { sample: { exact: STRENGTHS } }, 'mean of several Weibull'],
    [{ distribution: 'weibull', of: 'all' }, { sample: { exact: STRENGTHS, atLeast: [210] } }, 'withdrawn'],
    [{ distribution: 'weibull', of: 'all' }, { n: 5, mean: 3, sd: 1 }, 'strengths themselves'],
    [{ distribution: 'distribution-free', of: 'mean' }, { sample: { exact: STRENGTHS } }, 'without a distribution'],
    [{ distribution: 'distribution-free', of: 'all' }, { sample: { exact: STRENGTHS } }, 'not even the weakest'],
    [{ distribution: 'distribution-free', of: 'all' }, { sample: {} }, 'empty'],
  ] as const)('says why %j of %j is not evaluated', (question, basis, because) => {
    const found = predictionBound({
      ...question,
      basis: basis as PredictionQuestion['basis'],
      confidence: 0.9,
      m: 2,
    });
    expect(found).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });

  it('says how many specimens a distribution-free bound needs', () => {
    const found = predictionBound({
      basis: { sample: { exact: STRENGTHS } },
      distribution: 'distribution-free',
      confidence: 0.9,
      m: 2,
      of: 'all',
    });
    expect(found).toMatchObject({ notEvaluated: { possibleIf: 'at least 18 specimens are tested' } });
    expect([chanceAllAbove(18, 2, 1) >= 0.9 - 1e-12, chanceAllAbove(17, 2, 1) >= 0.9]).toEqual([true, false]);
  });
});

describe('predictionProbability', () => {
  it('is larger than fitted parameters alone would say', () => {
    const known = predictionProbabilityKnown({ mean: 150, sd: 6 }, 5, 135).probability;
    const found = predictionProbability({ basis: { n: 10, mean: 150, sd: 6 }, distribution: 'normal', m: 5, x: 135 });
    expect((found as { probability: number }).probability).toBeGreaterThan(known);
  });

  it('finds no strength at or below 0 where its logarithm is normal or Weibull', () => {
    for (const distribution of ['lognormal', 'weibull'] as const)
      expect(predictionProbability({ basis: { sample: LIFE }, distribution, m: 5, x: 0 })).toMatchObject({
        probability: 0,
      });
    expect(predictionProbabilityKnown({ logMean: 5, logSd: 1 }, 3, -1).probability).toBe(0);
    expect(predictionProbabilityKnown({ shape: 5, scale: 1 }, 3, -1).probability).toBe(0);
  });

  it('needs a rank where no distribution is assumed', () => {
    expect(
      predictionProbability({ basis: { sample: LIFE }, distribution: 'distribution-free', m: 5, x: 6 }),
    ).toMatchObject({ notEvaluated: { possibleIf: expect.stringContaining('rank') } });
  });
});

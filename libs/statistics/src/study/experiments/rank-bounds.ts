import { isNotEvaluated } from '@breakbook/lab';
import { hansonKoopmansFactor } from '../../bounds/hanson-koopmans.js';
import { orderStatisticRank } from '../../bounds/order-statistic.js';
import { weibullKnownShapeBound } from '../../bounds/weibull-known-shape-bound.js';
import { normalQuantile } from '../../distributions/normal.js';
import { weibullQuantile } from '../../distributions/weibull.js';
import { weibullModel } from '../../fits/strength-model.js';
import { sortedUniforms } from '../../random/order-statistics.js';
import { drawSample } from '../censoring.js';
import type { Experiment } from '../experiment.js';
import { SIZES } from './parametric.js';

/** The weakest of so many, and higher ranks: against the confidence they achieve, which is more than the one asked for. */
export function orderStatisticExperiments(): Experiment[] {
  return [29, 46, 100].map((n): Experiment => {
    const found = orderStatisticRank({ n, coverage: 0.9, confidence: 0.95 });
    if (isNotEvaluated(found)) throw new Error(found.notEvaluated.because);
    return {
      table: 'Order statistic, any distribution',
      row: { n, coverage: 0.9, rank: found.rank },
      confidences: [found.achievedConfidence],
      promise: 'exact',
      draw: (chance) => [(sortedUniforms(n, chance)[found.rank - 1] as number) <= 0.1],
    };
  });
}

/** Populations with differing tails: the bound of Hanson and Koopmans depends on the shape, and must hold for each. */
const POPULATIONS: { name: string; strength: (share: number) => number }[] = [
  ...[3, 10, 30].map((shape) => ({
    name: `Weibull, shape ${shape}`,
    strength: (share: number) => weibullQuantile(share, { shape, scale: 1 }),
  })),
  { name: 'lognormal, sd of logarithm 0.1', strength: (share) => Math.exp(0.1 * normalQuantile(share)) },
  { name: 'normal, cv 0.1', strength: (share) => 1 + 0.1 * normalQuantile(share) },
];

export function hansonKoopmansExperiments(): Experiment[] {
  return POPULATIONS.flatMap(({ name, strength }) =>
    SIZES.filter((n) => n < 29).map((n): Experiment => {
      const factor = hansonKoopmansFactor({ n, coverage: 0.9, confidence: 0.95 });
      if (isNotEvaluated(factor)) throw new Error(factor.notEvaluated.because);
      const truth = strength(0.1);
      return {
        table: 'Hanson-Koopmans',
        row: { population: name, n, coverage: 0.9 },
        confidences: [0.95],
        promise: 'conservative',
        draw(chance) {
          const shares = sortedUniforms(n, chance);
          const [weakest, other] = [strength(shares[0] as number), strength(shares[factor.rank - 1] as number)];
          return [other * (weakest / other) ** factor.k <= truth];
        },
      };
    }),
  );
}

/** The bound of a known shape, the shape being right; a test ended at one value, also where hardly any breaks. */
export function knownShapeExperiments(): Experiment[] {
  return SIZES.flatMap((n) =>
    [0.25, 0.5, 0.75, 0.95].map(
      (share): Experiment => ({
        table: 'Weibull of known shape, ended at one value',
        row: { n, 'share ended': share, coverage: 0.9 },
        confidences: [0.9],
        promise: 'conservative',
        draw(chance) {
          const sample = drawSample(weibullModel, n, { kind: 'ended at one value', share }, chance);
          const found = weibullKnownShapeBound(sample, { shape: 1, confidence: 0.9 });
          return isNotEvaluated(found) ? undefined : [found.scaleLower <= 1];
        },
      }),
    ),
  );
}

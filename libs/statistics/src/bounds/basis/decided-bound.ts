import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import { anovaBound } from '../anova-bound.js';
import { type HansonKoopmansFactor, hansonKoopmansFactor } from '../hanson-koopmans.js';
import { lowerToleranceBound } from '../lower-tolerance-bound.js';
import { orderStatisticRank } from '../order-statistic.js';
import type { Decision } from './decision.js';

/** By what the bound of a decision is formed. */
export type DecidedTechnique =
  | 'conditional'
  | 'noncentral-t'
  | 'order-statistic'
  | 'hanson-koopmans'
  | 'analysis-of-variance';

export interface DecidedBound {
  bound: number;
  technique: DecidedTechnique;
}

export interface BasisAim {
  coverage: number;
  confidence: number;
}

/**
 * Forms the bound of one decision after another, all with the same aim and the same number of values: between batches by
 * the analysis of variance, for pooled values by the exact technique of their distribution, and where none explains them
 * by the order statistic or, with too few for one, by Hanson and Koopmans.
 */
export function boundsOfDecisions(aim: BasisAim): (decision: Decision) => DecidedBound | NotEvaluated {
  // The factor rests on the number of values alone, and takes longer than everything else together.
  let known: HansonKoopmansFactor | NotEvaluated | undefined;
  return ({ groups, pooled, distribution }) => {
    if (!pooled) return withTechnique(anovaBound(groups, aim), 'analysis-of-variance');
    const exact = groups.flat();
    if (distribution !== undefined)
      return withTechnique(
        lowerToleranceBound({ ...aim, sample: { exact }, distribution }),
        distribution === 'weibull' ? 'conditional' : 'noncentral-t',
      );
    const n = exact.length;
    const sorted = exact.sort((a, b) => a - b);
    const order = orderStatisticRank({ ...aim, n });
    if (!isNotEvaluated(order)) return { bound: sorted[order.rank - 1] as number, technique: 'order-statistic' };
    // Ratios of strengths need them above 0.
    if (!((sorted[0] as number) > 0)) return order;
    known ??= hansonKoopmansFactor({ ...aim, n });
    if (isNotEvaluated(known)) return known;
    const [weakest, other] = [sorted[0] as number, sorted[known.rank - 1] as number];
    return { bound: other * (weakest / other) ** known.k, technique: 'hanson-koopmans' };
  };
}

function withTechnique(
  found: { bound: number } | NotEvaluated,
  technique: DecidedTechnique,
): DecidedBound | NotEvaluated {
  return isNotEvaluated(found) ? found : { bound: found.bound, technique };
}

import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { tAbove } from '../distributions/student-t.js';
import { requireFraction, requirePositive } from '../requirements.js';
import { meanDifference } from './mean-difference.js';

export interface NonInferiority {
  method: 'one-sided test of non-inferiority';
  better: 'higher' | 'lower';
  /** As given, in the unit of the values. */
  margin: number;
  /** Mean of a less mean of b. */
  difference: number;
  df: number;
  confidence: number;
  /** One-sided: how much worse a may be, the lowest difference where higher is better, the highest where lower is. */
  limit: number;
  /** Chance of a difference so good, were a worse by just the margin. */
  p: number;
  /** True where p is at most 1 - confidence, which is where the limit lies within the margin. */
  nonInferior: boolean;
}

/**
 * Is group a surely worse than b by less than a margin declared beforehand? One one-sided Welch test:
 *
 *     higher is better   p = P(T > (difference + margin) / se)
 *     lower is better    p = P(T > (margin - difference) / se)
 *
 * Hypothesis: a is worse than b by the margin or more. Assumes values independent and normal. Smallest: 2 values in each
 * group.
 *
 * Source: Blackwelder (1982), Control. Clin. Trials 3, 345-353; standard error and degrees of freedom of Welch (1947).
 */
export function nonInferiority(
  a: readonly number[],
  b: readonly number[],
  { better, margin, confidence }: Pick<NonInferiority, 'better' | 'margin' | 'confidence'>,
): NonInferiority | NotEvaluated {
  requireFraction('nonInferiority', { confidence });
  requirePositive('nonInferiority', { margin });
  const found = meanDifference('nonInferiority', a, b, false);
  if (isNotEvaluated(found)) return found;
  const { difference, standardError, df } = found;
  const towardsWorse = better === 'higher' ? -1 : 1;
  const p = tAbove((margin - towardsWorse * difference) / standardError, df);
  return {
    method: 'one-sided test of non-inferiority',
    better,
    margin,
    difference,
    df,
    confidence,
    limit: difference - towardsWorse * tQuantile(1 - confidence, df) * standardError,
    p,
    nonInferior: p <= 1 - confidence,
  };
}

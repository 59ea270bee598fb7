import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { requireFraction } from '../requirements.js';
import { summary } from './summary.js';

export interface MeanLimits {
  method: 'mean limits';
  n: number;
  mean: number;
  sd: number;
  /** Each holds with `confidence` by itself, in the unit of the values. */
  lower: number;
  upper: number;
  confidence: number;
}

/**
 * Between what does the mean of a population lie? Two one-sided limits,
 *
 *     mean -+ t(confidence; n - 1) s / sqrt n
 *
 * A claim that the mean lies above the one or below the other errs with probability 1 - confidence; so does the claim
 * that it lies between both, where both must hold (intersection-union).
 *
 * Assumes values independent and normal; near to exact for others from some 15 values on. Smallest n: 2.
 *
 * Source: Student (1908), Biometrika 6, 1-25; Berger and Hsu (1996), Statist. Sci. 11, 283-319.
 */
export function meanLimits(values: readonly number[], confidence: number): MeanLimits | NotEvaluated {
  requireFraction('meanLimits', { confidence });
  const described = summary(values);
  if (isNotEvaluated(described)) return described;
  const { n, mean, sd } = described;
  if (isNotEvaluated(sd)) return sd;
  if (sd === 0)
    return notEvaluated(
      'all values are the same number, which says nothing of how far the mean of others may lie from it',
      'values are read finely enough to differ',
    );
  const reach = (tQuantile(confidence, n - 1) * sd) / Math.sqrt(n);
  return { method: 'mean limits', n, mean, sd, lower: mean - reach, upper: mean + reach, confidence };
}

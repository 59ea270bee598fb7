import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { noncentralT } from '../distributions/noncentral-t.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { requireFraction } from '../requirements.js';
import { meanDifference } from './mean-difference.js';

export interface SmallestDifference {
  method: 'smallest difference of means';
  df: number;
  power: number;
  /** In the unit of the values. */
  difference: number;
}

/**
 * Which true difference of two means would a Welch test of groups like these find with this chance? The difference d with
 *
 *     P(T > t(1 - alpha; df)) = power,     T noncentral t with df degrees of freedom about d / standard error
 *
 * for scatters as they were found; two-sided with alpha / 2, the chance of the wrong side left out.
 *
 * Smallest: 2 values in each group.
 *
 * Source: Cohen (1988), Statistical Power Analysis, chapter 2, by the noncentral t.
 */
export function smallestDifferenceOfMeans(
  a: readonly number[],
  b: readonly number[],
  { alpha, power, sides }: { alpha: number; power: number; sides: 1 | 2 },
): SmallestDifference | NotEvaluated {
  requireFraction('smallestDifferenceOfMeans', { alpha, power });
  const found = meanDifference('smallestDifferenceOfMeans', a, b, false);
  if (isNotEvaluated(found)) return found;
  const { standardError, df } = found;
  const critical = -tQuantile(alpha / sides, df);
  const shift = rootOfIncreasing(
    (tried) => ({ value: noncentralT(critical, df, tried).above - power, slope: 0 }),
    Math.max(1, critical),
    1,
  );
  return { method: 'smallest difference of means', df, power, difference: shift * standardError };
}

import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { tAbove } from '../distributions/student-t.js';
import { requireFinite, requireFraction } from '../requirements.js';
import { meanDifference } from './mean-difference.js';

export interface Equivalence {
  method: 'two one-sided tests';
  difference: number;
  df: number;
  /** As given, in the unit of the values. */
  margin: [number, number];
  /** Two-sided, of `limits`; each of the two tests is one-sided at (1 - confidence) / 2. */
  confidence: number;
  limits: [number, number];
  /** Chance of a difference so far above the lower margin, were it no higher than that. */
  pLower: number;
  pUpper: number;
  /** True where the limits lie within the margin, which is where both p are at most (1 - confidence) / 2. */
  equivalent: boolean;
}

/**
 * Is the difference of two means surely within a margin declared beforehand? Two one-sided Welch tests:
 *
 *     pLower = P(T > (difference - lower margin) / se),     pUpper = P(T < (difference - upper margin) / se)
 *
 * Both groups count as equivalent where the two-sided limits of the difference lie within the margin. For tests at 5 %
 * on each side ask for a confidence of 0.9.
 *
 * Hypothesis: the difference lies at or beyond the margin. Assumes values independent and normal. Smallest: 2 values in
 * each group.
 *
 * Source: Schuirmann (1987), J. Pharmacokinet. Biopharm. 15, 657-680; standard error and degrees of freedom of Welch
 * (1947).
 */
export function equivalence(
  a: readonly number[],
  b: readonly number[],
  margin: readonly [number, number],
  confidence: number,
): Equivalence | NotEvaluated {
  requireFraction('equivalence', { confidence });
  const [low, high] = margin;
  requireFinite('equivalence', { 'margin[0]': low, 'margin[1]': high });
  if (!(low < high)) throw new RangeError(`equivalence: a margin runs upward; got ${low} to ${high}.`);
  const found = meanDifference('equivalence', a, b, false);
  if (isNotEvaluated(found)) return found;
  const { difference, standardError, df } = found;
  const reach = -tQuantile((1 - confidence) / 2, df) * standardError;
  const limits: [number, number] = [difference - reach, difference + reach];
  return {
    method: 'two one-sided tests',
    difference,
    df,
    margin: [low, high],
    confidence,
    limits,
    pLower: tAbove((difference - low) / standardError, df),
    pUpper: tAbove((high - difference) / standardError, df),
    equivalent: limits[0] >= low && limits[1] <= high,
  };
}

import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { tBeyond } from '../distributions/student-t.js';
import { requireFraction } from '../requirements.js';
import { meanDifference } from './mean-difference.js';

export interface WelchTest {
  method: 'Welch t' | 'pooled t';
  /** Mean of a less mean of b, in the unit of the values. */
  difference: number;
  t: number;
  df: number;
  /** Two-sided. */
  p: number;
  confidence: number;
  /** Of the difference, two-sided. */
  limits: [number, number];
}

/**
 * Do the means of two groups differ? t = difference / standard error (see `meanDifference`), p by Student's t, limits
 * difference -+ t(confidence) standard errors.
 *
 * Hypothesis: both groups have one mean. Assumes values independent and normal; pooled: one scatter as well.
 * Smallest: 2 values in each group.
 *
 * Source: Welch (1947), Biometrika 34, 28-35; NIST/SEMATECH e-Handbook, section 1.3.5.3.
 */
export function welch(
  a: readonly number[],
  b: readonly number[],
  confidence: number,
  { pooled = false } = {},
): WelchTest | NotEvaluated {
  requireFraction('welch', { confidence });
  const found = meanDifference('welch', a, b, pooled);
  if (isNotEvaluated(found)) return found;
  const { difference, standardError, df } = found;
  const t = difference / standardError;
  const reach = -tQuantile((1 - confidence) / 2, df) * standardError;
  return {
    method: pooled ? 'pooled t' : 'Welch t',
    difference,
    t,
    df,
    p: tBeyond(t, df),
    confidence,
    limits: [difference - reach, difference + reach],
  };
}

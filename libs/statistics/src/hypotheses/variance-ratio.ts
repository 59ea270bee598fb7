import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { centred } from '../description/centred.js';
import { fAbove } from '../distributions/f-distribution.js';
import { requireValues } from '../requirements.js';

export interface VarianceRatio {
  method: 'variance ratio';
  /** Variance of a divided by that of b. */
  f: number;
  df: [number, number];
  /** Two-sided. */
  p: number;
}

/**
 * Do two groups of normal values scatter alike?
 *
 *     f = s_a^2 / s_b^2,     p = twice the smaller share of the F distribution beside f
 *
 * Hypothesis: both groups have one scatter. Assumes values independent and normal, and is misled where they are not
 * (see `equalVariance`). Smallest: 2 values in each group.
 *
 * Source: NIST/SEMATECH e-Handbook, section 1.3.5.9.
 */
export function varianceRatio(a: readonly number[], b: readonly number[]): VarianceRatio | NotEvaluated {
  requireValues('varianceRatio', 'a', a);
  requireValues('varianceRatio', 'b', b);
  if (a.length < 2 || b.length < 2)
    return notEvaluated('a group of fewer than 2 values has no scatter', 'both groups have at least 2 values');
  const [one, other] = [centred(a), centred(b)];
  if (one.squares === 0 || other.squares === 0)
    return notEvaluated(
      'within one group all values are the same number, and there is no ratio to no scatter',
      'values are read finely enough to differ',
    );
  const df: [number, number] = [one.n - 1, other.n - 1];
  const f = one.squares / df[0] / (other.squares / df[1]);
  // What lies below f lies above 1 / f with the degrees of freedom changed over.
  const beside = Math.min(fAbove(f, df), fAbove(1 / f, [df[1], df[0]]));
  return { method: 'variance ratio', f, df, p: Math.min(1, 2 * beside) };
}

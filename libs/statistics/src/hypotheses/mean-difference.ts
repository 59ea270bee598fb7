import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { centred, differenceOfMeans } from '../description/centred.js';
import { requireValues } from '../requirements.js';

/** How far two means lie apart, and how surely that is known. */
export interface MeanDifference {
  /** Mean of a less mean of b, in the unit of the values. */
  difference: number;
  /** Standard error of the difference. */
  standardError: number;
  df: number;
}

/**
 * The difference of two means with its standard error:
 *
 *     Welch    se^2 = s_a^2 / n_a + s_b^2 / n_b,
 *              df = se^4 / ((s_a^2 / n_a)^2 / (n_a - 1) + (s_b^2 / n_b)^2 / (n_b - 1))
 *     pooled   se^2 = s^2 (1 / n_a + 1 / n_b),   s^2 the pooled variance,   df = n_a + n_b - 2
 *
 * Source: Welch (1947), Biometrika 34, 28-35; pooled: Student (1908), Biometrika 6, 1-25.
 */
export function meanDifference(
  caller: string,
  a: readonly number[],
  b: readonly number[],
  pooled: boolean,
): MeanDifference | NotEvaluated {
  requireValues(caller, 'a', a);
  requireValues(caller, 'b', b);
  if (a.length < 2 || b.length < 2)
    return notEvaluated('a group of fewer than 2 values has no scatter', 'both groups have at least 2 values');
  const [one, other] = [centred(a), centred(b)];
  if (one.squares + other.squares === 0)
    return notEvaluated('within both groups all values are the same number', 'values are read finely enough to differ');

  const difference = differenceOfMeans(one, other);
  if (pooled) {
    const df = one.n + other.n - 2;
    const variance = (one.squares + other.squares) / df;
    return { difference, standardError: Math.sqrt(variance * (1 / one.n + 1 / other.n)), df };
  }
  const [byOne, byOther] = [one, other].map(({ n, squares }) => squares / (n - 1) / n) as [number, number];
  const both = byOne + byOther;
  // As shares of the sum, which neither overflow nor vanish.
  const df = 1 / ((byOne / both) ** 2 / (one.n - 1) + (byOther / both) ** 2 / (other.n - 1));
  return { difference, standardError: Math.sqrt(both), df };
}

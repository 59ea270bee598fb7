import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFinite } from '../requirements.js';
import type { Within } from './gehan-test.js';
import { nullOfU } from './mann-whitney.js';

export interface SurelyOrderedPairs {
  method: 'surely ordered pairs';
  pairs: number;
  /** Pairs in which a, moved by the shift, is surely larger than b. */
  above: number;
  /** Small where a lies above b less the shift, whatever the values known from one side only were. */
  p: number;
  /** True where p comes from the exact distribution of u; otherwise from its normal approximation. */
  exact: boolean;
}

/**
 * Do values of a surely lie above those of b, or below them by less than a shift? Of all pairs only those count that are
 * ordered whatever the values known from one side were:
 *
 *     above = number of pairs (i, j) with a_i + shift > b_j for certain;     p = P(U >= above)
 *
 * u of Mann and Whitney counts those and more, so p is never smaller than the one that all values, had they been known,
 * would have given: the test is conservative whatever ended tests early, in either group.
 *
 * Hypothesis: a, moved by the shift, lies as b does or lower. Assumes values independent. Smallest: 1 value in each group.
 *
 * Source: distribution of u: Mann and Whitney (1947), Ann. Math. Statist. 18, 50-60.
 */
export function surelyOrderedPairs(
  a: readonly Within[],
  b: readonly Within[],
  shift: number,
): SurelyOrderedPairs | NotEvaluated {
  requireFinite('surelyOrderedPairs', { shift });
  for (const { from, to } of [...a, ...b])
    if (!(from <= to))
      throw new RangeError(`surelyOrderedPairs: a value lies from one number up to another; got ${from} to ${to}.`);
  if (a.length === 0 || b.length === 0)
    return notEvaluated('one of the groups has no values', 'both groups have at least 1 value');
  const above = a.reduce((sum, { from }) => sum + b.filter(({ to }) => from + shift > to).length, 0);
  const pairs = a.length * b.length;
  const { atMost, exact } = nullOfU(a.length, b.length);
  return { method: 'surely ordered pairs', pairs, above, p: atMost(pairs - above), exact };
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalCdf, normalQuantile } from '../distributions/normal.js';
import { requireFraction, requireValues } from '../requirements.js';
import { midranks } from './midranks.js';
import { sumDistribution, workFor } from './rank-sum-distribution.js';

export interface MannWhitney {
  method: 'Mann-Whitney';
  /** How many pairs there are with the value of a the larger, equal ones counting half. */
  u: number;
  pTwoSided: number;
  /** Small where a tends to be less than b. */
  pLess: number;
  pGreater: number;
  /** True where p comes from the exact distribution; otherwise from its normal approximation. */
  exact: boolean;
  confidence: number;
  shift: {
    /** By how much a exceeds b: the median of all differences, in the unit of the values. */
    estimate: number;
    limits: [number, number] | NotEvaluated;
    achievedConfidence: number | NotEvaluated;
  };
}

/** As many additions as are made without making anyone wait. */
const LARGEST_WORK = 1e8;

/** Chances of small and of large u where both groups come from one population without ties. */
export interface NullOfU {
  atMost(u: number): number;
  exact: boolean;
}

/**
 * Does one group tend to hold larger values than another, and by how much?
 *
 *     u = number of pairs (i, j) with a_i > b_j, plus half of those with a_i = b_j
 *     shift = median of all a_i - b_j; limits the k-th smallest and k-th largest of them, with the largest k for
 *     which 2 P(U <= k - 1) <= 1 - confidence
 *
 * p from the exact distribution of u where no values are equal and the groups are not very large; otherwise from the
 * normal approximation with continuity and tie corrections (`permutationTest` of rank sums is exact with ties too).
 * The limits use the distribution without ties, which with ties is conservative.
 *
 * Hypothesis: both groups come from one distribution; for the shift: from two that differ by it alone. Assumes values
 * independent. Smallest: 1 value in each group.
 *
 * Source: Mann and Whitney (1947), Ann. Math. Statist. 18, 50-60; Hodges and Lehmann (1963), Ann. Math. Statist. 34,
 * 598-611; limits Bauer (1972), J. Amer. Statist. Assoc. 67, 687-690.
 */
export function mannWhitney(
  a: readonly number[],
  b: readonly number[],
  confidence: number,
): MannWhitney | NotEvaluated {
  requireFraction('mannWhitney', { confidence });
  requireValues('mannWhitney', 'a', a);
  requireValues('mannWhitney', 'b', b);
  if (a.length === 0 || b.length === 0)
    return notEvaluated('one of the groups has no values', 'both groups have at least 1 value');

  const { ranks, ties } = midranks([...a, ...b]);
  const pairs = a.length * b.length;
  const u = ranks.slice(0, a.length).reduce((sum, rank) => sum + rank, 0) - (a.length * (a.length + 1)) / 2;
  const withoutTies = nullOfU(a.length, b.length);
  const tied = ties.some((count) => count > 1);
  if (ties.length === 1)
    return notEvaluated('all values are the same number', 'values are read finely enough to differ');
  const p =
    withoutTies.exact && !tied
      ? twoTails(withoutTies.atMost(u), withoutTies.atMost(pairs - u))
      : approximate(u, pairs, spreadOfU(a.length, b.length, ties));
  return {
    method: 'Mann-Whitney',
    u,
    ...p,
    exact: withoutTies.exact && !tied,
    confidence,
    shift: shiftOf(a, b, confidence, withoutTies),
  };
}

export function nullOfU(sizeA: number, sizeB: number): NullOfU {
  const n = sizeA + sizeB;
  const fewer = Math.min(sizeA, sizeB);
  const scores = Array.from({ length: n }, (_, index) => index);
  if (workFor(scores, fewer) <= LARGEST_WORK) {
    const sums = sumDistribution(scores, fewer);
    const least = (fewer * (fewer - 1)) / 2;
    return { atMost: (u) => sums.atMost(Math.floor(u + least)), exact: true };
  }
  const spread = spreadOfU(sizeA, sizeB, []);
  return { atMost: (u) => normalCdf((u + 0.5 - (sizeA * sizeB) / 2) / spread), exact: false };
}

function spreadOfU(sizeA: number, sizeB: number, ties: readonly number[]): number {
  const n = sizeA + sizeB;
  const tied = ties.reduce((sum, count) => sum + count ** 3 - count, 0);
  return Math.sqrt(((sizeA * sizeB) / 12) * (n + 1 - tied / (n * (n - 1))));
}

function twoTails(pLess: number, pGreater: number) {
  return { pTwoSided: Math.min(1, 2 * Math.min(pLess, pGreater)), pLess, pGreater };
}

function approximate(u: number, pairs: number, spread: number) {
  const off = u - pairs / 2;
  const pTwoSided = Math.min(1, 2 * normalCdf(-Math.max(0, Math.abs(off) - 0.5) / spread));
  return { pTwoSided, pLess: normalCdf((off + 0.5) / spread), pGreater: normalCdf(-(off - 0.5) / spread) };
}

function shiftOf(
  a: readonly number[],
  b: readonly number[],
  confidence: number,
  { atMost }: NullOfU,
): MannWhitney['shift'] {
  const differences = new Float64Array(a.length * b.length);
  a.forEach((one, i) => {
    b.forEach((other, j) => {
      differences[i * b.length + j] = one - other;
    });
  });
  differences.sort();
  const pairs = differences.length;
  const at = (index: number) => differences[index] as number;
  const estimate = (at(Math.floor((pairs - 1) / 2)) + at(Math.floor(pairs / 2))) / 2;

  const risk = (1 - confidence) * (1 + 1e-12);
  let k = 0;
  // Started near the answer where the groups are large, since each look at the distribution takes time.
  const guess = pairs / 2 + normalQuantile((1 - confidence) / 2) * spreadOfU(a.length, b.length, []);
  k = Math.min(Math.ceil(pairs / 2), Math.max(0, Math.round(guess)));
  while (k > 0 && 2 * atMost(k - 1) > risk) k--;
  while (2 * (k + 1) <= pairs + 1 && 2 * atMost(k) <= risk) k++;
  if (k === 0) {
    const because = `even all ${pairs} differences together reach no confidence of ${confidence}`;
    const none = notEvaluated(because, 'more specimens are tested, or the confidence is lower');
    return { estimate, limits: none, achievedConfidence: none };
  }
  return { estimate, limits: [at(k - 1), at(pairs - k)], achievedConfidence: 1 - 2 * atMost(k - 1) };
}

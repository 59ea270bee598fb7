import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { type PermutationOptions, type PermutationTest, permutationTest } from './permutation-test.js';

/** Between what a value lies: both ends the same where it is exact, an end infinite where it is known from one side only. */
export interface Within {
  from: number;
  to: number;
}

export interface GehanTest {
  method: 'Gehan';
  /** Pairs in which a is surely larger, less pairs in which it is surely smaller. */
  w: number;
  /** Standard deviation of w among all arrangements. */
  sd: number;
  pTwoSided: number;
  pLess: number;
  pGreater: number;
  exact: boolean;
  /** Where arrangements were drawn: see `permutationTest`. */
  simulationError?: number;
}

/**
 * Does one group tend to hold larger values than another, where some values are known from one side only?
 *
 *     score of a value = how many others are surely smaller less how many are surely larger
 *     w = sum of the scores of a
 *
 * p by sharing the scores out at random (see `permutationTest`). "At least 10" is surely larger than 8, and neither than 12.
 *
 * Hypothesis: both groups come from one distribution and were ended early in the same way. Smallest: 1 value in each group.
 *
 * Source: Gehan (1965), Biometrika 52, 203-223; scores and sd Mantel (1967), Biometrics 23, 65-78.
 */
export function gehanTest(
  a: readonly Within[],
  b: readonly Within[],
  options: Pick<PermutationOptions, 'seed' | 'replicates'> = {},
): GehanTest | NotEvaluated {
  const all = [...a, ...b];
  for (const { from, to } of all)
    if (!(from <= to))
      throw new RangeError(`gehanTest: a value lies from one number up to another; got ${from} to ${to}.`);
  const scores = all.map((one) =>
    all.reduce((sum, other) => sum + Number(isAbove(one, other)) - Number(isAbove(other, one)), 0),
  );
  if (a.length > 0 && b.length > 0 && scores.every((score) => score === 0))
    return notEvaluated('no value is surely larger than another', 'more specimens are taken to their break');
  const tested: PermutationTest | NotEvaluated = permutationTest(
    scores.slice(0, a.length),
    scores.slice(a.length),
    options,
  );
  if (isNotEvaluated(tested)) return tested;
  const { pTwoSided, pLess, pGreater, exact, simulationError } = tested;
  const n = all.length;
  const squares = scores.reduce((sum, score) => sum + score * score, 0);
  return {
    method: 'Gehan',
    w: scores.slice(0, a.length).reduce((sum, score) => sum + score, 0),
    sd: Math.sqrt((a.length * b.length * squares) / (n * (n - 1))),
    pTwoSided,
    pLess,
    pGreater,
    exact,
    ...(simulationError === undefined ? {} : { simulationError }),
  };
}

/** One value is surely larger than another: a survivor beats what broke at its own end. */
function isAbove(one: Within, other: Within): boolean {
  const onlyReached = one.to > one.from && one.to === Number.POSITIVE_INFINITY;
  return onlyReached ? one.from >= other.to : one.from > other.to;
}

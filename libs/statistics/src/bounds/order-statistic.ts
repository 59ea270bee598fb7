import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireCount, requireFraction } from '../requirements.js';
import { demonstrationSize } from '../sizing/demonstration-size.js';
import { chanceIfUntrue } from '../sizing/lot-claim.js';
import { zeroFailureSize } from '../sizing/zero-failure-size.js';

/** What a rank among the strengths is as a lower bound. */
export interface OrderStatistic {
  method: 'order-statistic bound';
  n: number;
  /** Which strength, from the weakest, is the bound. */
  rank: number;
  coverage: number;
  /** The confidence that this rank of this many really gives. */
  achievedConfidence: number;
  lotSize?: number;
}

/** The share of the population to lie above the bound, and the lot where the claim is about one lot alone. */
export interface OrderStatisticClaim {
  coverage: number;
  /** Units in the lot, those tested included. */
  lotSize?: number | undefined;
}

/**
 * Which of n strengths, from the weakest, is a lower bound that no distribution has to be assumed for? The largest rank
 * r with
 *
 *     P(at least r of n specimens lie among the weakest 1 - coverage of the population) >= confidence
 *
 * by the binomial distribution for a process; for a lot of N units, those tested included, by the hypergeometric. That
 * probability is the achieved confidence. Assumes specimens drawn at random.
 *
 * Source: Wilks (1941), Ann. Math. Statist. 12, 91-96; ISO 16269-6:2014; for lots the hypergeometric in place of the
 * binomial.
 */
export function orderStatisticRank({
  n,
  confidence,
  ...claim
}: OrderStatisticClaim & { n: number; confidence: number }): OrderStatistic | NotEvaluated {
  const { coverage, lotSize } = claim;
  requireClaim('orderStatisticRank', n, claim);
  requireFraction('orderStatisticRank', { confidence });
  if (n === 0) return notEvaluated('the sample is empty', 'specimens are tested');

  const population = { share: coverage, lotSize };
  const risk = (1 - confidence) * (1 + 1e-12);
  // The chance grows with the rank, so the last that serves is found by halving.
  let [serves, tooHigh] = [0, n + 1];
  while (tooHigh - serves > 1) {
    const middle = Math.floor((serves + tooHigh) / 2);
    if (chanceIfUntrue(middle - 1, n, population) <= risk) serves = middle;
    else tooHigh = middle;
  }
  if (serves === 0) {
    const needed = zeroFailureSize({ reliability: coverage, confidence, lotSize });
    return notEvaluated(
      `with ${n} specimens not even the weakest is a bound at this coverage and confidence`,
      'notEvaluated' in needed ? needed.notEvaluated.possibleIf : `at least ${needed.n} specimens are tested`,
    );
  }
  return orderStatisticConfidence({ ...claim, n, rank: serves });
}

/** The confidence with which the strength of a given rank among n is a lower bound: the inverse of `orderStatisticRank`. */
export function orderStatisticConfidence({
  n,
  rank,
  ...claim
}: OrderStatisticClaim & { n: number; rank: number }): OrderStatistic {
  requireClaim('orderStatisticConfidence', n, claim);
  requireCount('orderStatisticConfidence', { rank }, 1);
  if (rank > n) throw new RangeError(`orderStatisticConfidence: ${n} strengths have no rank ${rank}.`);
  return {
    method: 'order-statistic bound',
    n,
    rank,
    coverage: claim.coverage,
    achievedConfidence: 1 - chanceIfUntrue(rank - 1, n, { share: claim.coverage, lotSize: claim.lotSize }),
    ...(claim.lotSize === undefined ? {} : { lotSize: claim.lotSize }),
  };
}

/**
 * The fewest specimens among which the strength of a given rank is a lower bound with the confidence. The same number
 * as a demonstration needs that allows one failure less than the rank.
 */
export function orderStatisticSize({
  rank,
  confidence,
  ...claim
}: OrderStatisticClaim & { rank: number; confidence: number }): OrderStatistic | NotEvaluated {
  requireCount('orderStatisticSize', { rank }, 1);
  const { coverage, lotSize } = claim;
  const size = demonstrationSize({ reliability: coverage, confidence, allowedFailures: rank - 1, lotSize });
  return 'notEvaluated' in size ? size : orderStatisticConfidence({ ...claim, n: size.n, rank });
}

function requireClaim(caller: string, n: number, { coverage, lotSize }: OrderStatisticClaim): void {
  requireCount(caller, { n });
  requireFraction(caller, { coverage });
  if (lotSize === undefined) return;
  requireCount(caller, { lotSize }, 1);
  if (n > lotSize) throw new RangeError(`${caller}: ${n} specimens cannot come from a lot of ${lotSize}.`);
}

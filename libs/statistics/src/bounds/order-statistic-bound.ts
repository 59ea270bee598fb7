import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireValues } from '../requirements.js';
import { chanceIfUntrue, fewestBad } from '../sizing/lot-claim.js';
import { zeroFailureSize } from '../sizing/zero-failure-size.js';
import type { Aim, Found } from './lower-tolerance-bound.js';

/**
 * The lower tolerance bound that assumes no distribution: the r-th weakest strength, with the
 * largest rank r for which
 *
 *     P(at least r of n specimens lie among the weakest 1 - coverage of the population) >= confidence
 *
 * by the binomial distribution for a process; for a lot of N units, those tested included, by the
 * hypergeometric. The achieved confidence is that probability.
 *
 * A specimen that held at least some value counts as if it had broken there, one known to lie
 * between two values as if at the lower: both can only lower the bound. One known as at most some
 * value ranks below all others and can be no bound.
 *
 * Source: Wilks (1941), Ann. Math. Statist. 12, 91-96; ISO 16269-6:2014; for lots the
 * hypergeometric in place of the binomial.
 */
export function orderStatisticBound({ sample, coverage, confidence, lotSize }: Aim): Found | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues('lowerToleranceBound', 'exact', exact);
  requireValues('lowerToleranceBound', 'atLeast', atLeast);
  const known = [...exact, ...atLeast, ...between.map(([low]) => low)].sort((a, b) => a - b);
  const n = known.length + atMost.length;
  if (n === 0) return notEvaluated('the sample is empty', 'specimens are tested');
  if (lotSize !== undefined && n > lotSize)
    throw new RangeError(`lowerToleranceBound: ${n} specimens cannot come from a lot of ${lotSize}.`);

  const claim = { share: coverage, lotSize };
  const risk = (1 - confidence) * (1 + 1e-12);
  let rank = 0;
  while (rank < n && chanceIfUntrue(rank, n, claim) <= risk) rank++;
  if (rank === 0) {
    const needed = zeroFailureSize({ reliability: coverage, confidence, lotSize });
    return notEvaluated(
      `with ${n} specimens not even the weakest is a bound at this coverage and confidence`,
      'notEvaluated' in needed ? needed.notEvaluated.possibleIf : `at least ${needed.n} specimens are tested`,
    );
  }
  const weak = lotSize === undefined ? 1 - coverage : fewestBad({ share: coverage, lotSize }) / lotSize;
  // A hair above a whole number of weak specimens is that number.
  const place = Math.min(n, Math.max(1, Math.ceil(n * weak * (1 - 1e-12))));
  const strengthAt = (number: number) => known[number - atMost.length - 1];
  const bound = strengthAt(rank);
  const estimate = strengthAt(place);
  if (bound === undefined || estimate === undefined)
    return notEvaluated(
      `strength number ${Math.min(rank, place)} from the weakest is needed, and that one is known only as at most some value`,
      'the weakest strengths are known exactly or as at least',
    );
  return {
    bound,
    estimate,
    achievedConfidence: 1 - chanceIfUntrue(rank - 1, n, claim),
    rank,
    n,
    failures: exact.length + atMost.length + between.length,
    ...(lotSize === undefined ? {} : { population: 'lot' }),
    assumptions:
      atLeast.length + between.length > 0
        ? ['specimens not broken count as if they had broken at the value they held, which can only lower the bound']
        : [],
  };
}

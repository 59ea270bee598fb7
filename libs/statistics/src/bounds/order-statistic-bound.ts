import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireValues } from '../requirements.js';
import { fewestBad } from '../sizing/lot-claim.js';
import type { Aim, Found } from './lower-tolerance-bound.js';
import { orderStatisticRank } from './order-statistic.js';

/**
 * The lower tolerance bound that assumes no distribution: the strength whose rank `orderStatisticRank` finds.
 *
 * A specimen that held at least some value counts as if it had broken there, one known to lie
 * between two values as if at the lower: both can only lower the bound. One known as at most some
 * value ranks below all others and can be no bound.
 */
export function orderStatisticBound({ sample, coverage, confidence, lotSize }: Aim): Found | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues('lowerToleranceBound', 'exact', exact);
  requireValues('lowerToleranceBound', 'atLeast', atLeast);
  const known = [...exact, ...atLeast, ...between.map(([low]) => low)].sort((a, b) => a - b);
  const n = known.length + atMost.length;
  const found = orderStatisticRank({ n, coverage, confidence, lotSize });
  if ('notEvaluated' in found) return found;

  const { rank, achievedConfidence } = found;
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
    achievedConfidence,
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

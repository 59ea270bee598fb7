import { type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { requireCount, requireValues } from '../requirements.js';

/** Where one failure stands on a probability plot. Shares are fractions of the population failing. */
export interface PlottingPoint {
  /** The strength, in the unit of the sample; left out where only n was given. */
  value?: number;
  /** Rank among all specimens, raised for those withdrawn before it; not a whole number in general. */
  adjustedRank: number;
  /** The exact median rank. */
  exact: number;
  /** Its approximation by Benard. */
  benard: number;
  rank05: number;
  rank95: number;
}

export interface PlottingPositions {
  method: 'plotting positions';
  n: number;
  failures: number;
  points: PlottingPoint[];
}

/**
 * At what share failing is each broken specimen drawn on a probability plot?
 *
 *     exact  = median of Beta(i, n + 1 - i), rank05 and rank95 its 5 % and 95 % points
 *     Benard = (i - 0.3) / (n + 0.4)
 *     rank i of a failure = rank before + (n + 1 - rank before) / (1 + specimens not yet out)
 *
 * The last line raises the rank where specimens that held at least some value left before; without
 * them ranks are 1, 2, 3 and so on. Of a failure and a survivor at one value the failure counts first.
 *
 * Positions are for drawing; no claim rests on them. A sample with "at most" or "between" values has
 * no ranks.
 *
 * Source: Benard and Bos-Levenbach (1953), Statistica Neerlandica 7, 163-173; adjusted ranks Johnson
 * (1964), The Statistical Treatment of Fatigue Experiments, Elsevier.
 */
export function plottingPositions(sample: Sample): PlottingPositions | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues('plottingPositions', 'exact', exact);
  requireValues('plottingPositions', 'atLeast', atLeast);
  if (atMost.length + between.length > 0)
    return notEvaluated(
      'strengths known only as at most or between have no rank',
      'every strength is known exactly or as at least',
    );
  const n = exact.length + atLeast.length;
  if (exact.length === 0)
    return notEvaluated('no specimen broke, so there is nothing to draw', 'at least 1 specimen breaks');

  const values = exact.toSorted((a, b) => a - b);
  const survivors = atLeast.toSorted((a, b) => a - b);
  let withdrawn = 0;
  let rank = 0;
  const points = values.map((value, broken) => {
    while (withdrawn < survivors.length && (survivors[withdrawn] as number) < value) withdrawn++;
    rank += (n + 1 - rank) / (1 + n - broken - withdrawn);
    return { value, ...positionOf(rank, n) };
  });
  return { method: 'plotting positions', n, failures: exact.length, points };
}

/** The positions of n specimens that all break, whatever their strengths. */
export function plottingPositionsOf(n: number): PlottingPositions {
  requireCount('plottingPositionsOf', { n }, 1);
  return {
    method: 'plotting positions',
    n,
    failures: n,
    points: Array.from({ length: n }, (_, index) => positionOf(index + 1, n)),
  };
}

function positionOf(rank: number, n: number): PlottingPoint {
  const at = (share: number) => betaQuantile(share, rank, n + 1 - rank);
  return {
    adjustedRank: rank,
    exact: at(0.5),
    benard: (rank - 0.3) / (n + 0.4),
    rank05: at(0.05),
    rank95: at(0.95),
  };
}

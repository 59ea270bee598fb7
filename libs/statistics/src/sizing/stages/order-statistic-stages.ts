import { binomialCdf } from '../../distributions/binomial.js';

/**
 * The chance that no look of a schedule gives a bound above the true quantile, the bound of each look being the strength
 * of the largest rank that serves at the per-stage confidence. Exact: the number of specimens below the quantile is
 * followed from look to look, and schedules are let go where it is smaller than the rank. With another `share` than
 * 1 - coverage: the chance that no look's bound clears a limit which that share lies below.
 */
export function chanceOrderStatisticsHold(
  stages: readonly number[],
  coverage: number,
  perStageConfidence: number,
  share = 1 - coverage,
): number {
  const weak = 1 - coverage;
  let reached = Float64Array.of(1);
  let before = 0;
  for (const n of stages) {
    const added = probabilities(n - before, share);
    const next = new Float64Array(n + 1);
    for (let old = 0; old <= before; old++) {
      const chance = reached[old] as number;
      if (chance === 0) continue;
      for (let more = 0; more < added.length; more++)
        next[old + more] = (next[old + more] as number) + chance * (added[more] as number);
    }
    const rank = largestRank(n, weak, perStageConfidence);
    next.fill(0, 0, rank);
    [reached, before] = [next, n];
  }
  return reached.reduce((sum, chance) => sum + chance, 0);
}

/** The largest r with P(fewer than r of n are weak) at most 1 - confidence; 0 if none. */
function largestRank(n: number, weak: number, confidence: number): number {
  let rank = 0;
  while (rank < n && binomialCdf(rank, n, weak) <= (1 - confidence) * (1 + 1e-12)) rank++;
  return rank;
}

function probabilities(trials: number, probability: number): Float64Array {
  return Float64Array.from(
    { length: trials + 1 },
    (_, count) => binomialCdf(count, trials, probability) - binomialCdf(count - 1, trials, probability),
  );
}

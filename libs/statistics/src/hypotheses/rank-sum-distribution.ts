/** How often each sum of scores occurs among all choices of `chosen` out of `scores`. */
export interface SumDistribution {
  /** Share of all choices with a sum at most this. */
  atMost(sum: number): number;
  atLeast(sum: number): number;
  /** Number of choices there are. */
  arrangements: number;
}

/** About how many additions `sumDistribution` takes. */
export function workFor(scores: readonly number[], chosen: number): number {
  return scores.length * chosen * largestSum(scores, chosen);
}

/**
 * The distribution of the sum of `chosen` scores drawn without replacement, scores whole numbers of at least 0. Built by
 * taking in one score after the other: the choices that hold it are those of one fewer without it. All terms are
 * positive, so that no digits are lost.
 *
 * Source: Mann and Whitney (1947), Ann. Math. Statist. 18, 50-60; with ties as Streitberg and Röhmel (1986), Statist.
 * Softw. Newsl. 12, 10-17.
 */
export function sumDistribution(scores: readonly number[], chosen: number): SumDistribution {
  const most = largestSum(scores, chosen);
  const counts = Array.from({ length: chosen + 1 }, () => new Float64Array(most + 1));
  (counts[0] as Float64Array)[0] = 1;
  scores.forEach((score, taken) => {
    for (let held = Math.min(taken + 1, chosen); held >= 1; held--) {
      const into = counts[held] as Float64Array;
      const from = counts[held - 1] as Float64Array;
      for (let sum = most; sum >= score; sum--) into[sum] = (into[sum] as number) + (from[sum - score] as number);
    }
  });
  const found = counts[chosen] as Float64Array;
  let all = 0;
  for (const count of found) all += count;
  const between = (from: number, to: number) => {
    let inside = 0;
    for (let sum = Math.max(0, Math.ceil(from)); sum <= Math.min(most, to); sum++) inside += found[sum] as number;
    return inside / all;
  };
  return {
    atMost: (sum) => between(0, sum),
    atLeast: (sum) => between(sum, most),
    arrangements: all,
  };
}

function largestSum(scores: readonly number[], chosen: number): number {
  return scores
    .toSorted((a, b) => b - a)
    .slice(0, chosen)
    .reduce((sum, score) => sum + score, 0);
}

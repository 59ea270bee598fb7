/**
 * The chance that all of m future units lie above the rank-th smallest of n units of the same population:
 *
 *     product over j < rank of (n - j) / (n + m - j)
 *
 * exact for any continuous distribution, by the equal chance of all orders of n + m units.
 *
 * Source: Hahn and Meeker (1991), Statistical Intervals, section 5.4.
 */
export function chanceAllAbove(n: number, m: number, rank: number): number {
  let chance = 1;
  for (let j = 0; j < rank; j++) chance *= (n - j) / (n + m - j);
  return chance;
}

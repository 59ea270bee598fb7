/**
 * How often does a lot pass in which this share of units does not conform, when n are drawn at random and all n must
 * conform?
 *
 *     process     (1 - share)^n
 *     lot of N    product over i < n of (N - bad - i) / (N - i),  bad = share * N rounded up
 *
 * `share` is a fraction. The operating characteristic of a rule that claims no confidence.
 *
 * Source: binomial and hypergeometric chance of no bad unit; ISO 2859-1:1999, 12 (from memory).
 */
export function chanceAllConform(n: number, share: number, lotSize?: number): number {
  if (lotSize === undefined) return (1 - share) ** n;
  // 0.07 * 100 is a hair above 7 in floating point and must not become 8.
  const bad = Math.ceil(share * lotSize - 1e-9);
  let chance = 1;
  for (let drawn = 0; drawn < n; drawn++) chance *= Math.max(0, lotSize - bad - drawn) / (lotSize - drawn);
  return chance;
}

import betainc from '@stdlib/math-base-special-betainc';

/**
 * Share of Snedecor's F distribution above f >= 0, with these degrees of freedom of numerator and
 * denominator:
 *
 *     above = I(denominator / (denominator + numerator f); denominator / 2, numerator / 2)
 *
 * with I the regularised incomplete beta function, precise in relative terms far into the tail.
 *
 * Source: Abramowitz and Stegun (1972), 26.6.2.
 */
export function fAbove(f: number, [numerator, denominator]: readonly [number, number]): number {
  const scaled = numerator * f;
  // Whichever argument is the smaller keeps its digits.
  return scaled > denominator
    ? betainc(denominator / (denominator + scaled), denominator / 2, numerator / 2)
    : betainc(scaled / (denominator + scaled), numerator / 2, denominator / 2, true, true);
}

import betainc from '@stdlib/math-base-special-betainc';

/**
 * Share of Student's t distribution above t, for any number of degrees of freedom above 0: half of
 * what lies beyond t on both sides,
 *
 *     beyond = I(degrees / (degrees + t^2); degrees / 2, 1 / 2)
 *
 * with I the regularised incomplete beta function, precise in relative terms far into the tail.
 *
 * Source: Abramowitz and Stegun (1972), 26.7.1.
 */
export function tAbove(t: number, degrees: number): number {
  const half = tBeyond(t, degrees) / 2;
  return t < 0 ? 1 - half : half;
}

/** Share of Student's t distribution farther from 0 than t, on both sides together. */
export function tBeyond(t: number, degrees: number): number {
  const square = t * t;
  // Whichever argument is the smaller keeps its digits.
  return square > degrees
    ? betainc(degrees / (degrees + square), degrees / 2, 0.5)
    : betainc(square / (degrees + square), 0.5, degrees / 2, true, true);
}

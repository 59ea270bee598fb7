import { gaussLegendre } from '../numerics/gauss-legendre.js';
import { normalCdf } from './normal.js';

const { points, weights } = gaussLegendre(24);

/**
 * Owen's T function for h >= 0 and a >= 0:
 *
 *     T(h, a) = 1 / (2 pi) * integral from 0 to a of exp(-h^2 (1 + x^2) / 2) / (1 + x^2) dx
 *
 * the probability that of two independent standard normal numbers the first exceeds h and the
 * second lies between 0 and a times the first. Absolute error below 1e-16.
 *
 * Source: Owen (1956), Ann. Math. Statist. 27, 1075-1090; his relation between T(h, a) and
 * T(ah, 1/a) keeps the range of integration within 1.
 */
export function owensT(h: number, a: number): number {
  if (a <= 1) return overRange(h, a);
  const above = normalCdf(-h);
  const aboveScaled = normalCdf(-a * h);
  return (above + aboveScaled) / 2 - above * aboveScaled - overRange(a * h, 1 / a);
}

function overRange(h: number, a: number): number {
  // Beyond 9 / h the integrand is below 1e-17 of its start, and a short range needs fewer points.
  const end = Math.min(a, 9 / h);
  let sum = 0;
  for (let index = 0; index < points.length; index++) {
    const x = end * (points[index] as number);
    const spread = 1 + x * x;
    sum += ((weights[index] as number) * Math.exp(-0.5 * h * h * spread)) / spread;
  }
  return (sum * end) / (2 * Math.PI);
}

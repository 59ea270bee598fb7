import { normalDensity } from '../distributions/normal.js';
import { normalBetween } from '../distributions/normal-between.js';
import { gaussLegendre } from '../numerics/gauss-legendre.js';
import { requireCount } from '../requirements.js';

const { points, weights } = gaussLegendre(16);

/** Mean and standard deviation of the range of n normal values of scatter 1. */
export interface RangeMoments {
  mean: number;
  sd: number;
}

/**
 * Mean d2 and standard deviation d3 of the range (largest less smallest) of n standard normal values:
 *
 *     P(range > r) = 1 - n integral of phi(x) (Phi(x + r) - Phi(x))^(n - 1) dx
 *     d2 = integral of P(range > r) dr,     d2^2 + d3^2 = 2 integral of r P(range > r) dr
 *
 * Source: Tippett (1925), Biometrika 17, 364-387; Hartley (1942), Biometrika 32, 334-348.
 */
export function rangeMoments(n: number): RangeMoments {
  requireCount('rangeMoments', { n }, 2);
  // Exact: the range of two is the absolute value of a normal number of variance 2.
  if (n === 2) return { mean: 2 / Math.sqrt(Math.PI), sd: Math.sqrt(2 - 4 / Math.PI) };
  const [panel, most] = [1, 15];
  let [mean, second] = [0, 0];
  for (let from = 0; from < most; from += panel)
    for (let index = 0; index < points.length; index++) {
      const r = from + panel * (points[index] as number);
      const share = panel * (weights[index] as number) * rangeAbove(r, n);
      mean += share;
      second += 2 * r * share;
    }
  return { mean, sd: Math.sqrt(second - mean * mean) };
}

/** By equal steps in x, whose error vanishes faster than any power of the step: the integrand falls off on both sides. */
function rangeAbove(r: number, n: number): number {
  const step = 0.2;
  let inside = 0;
  for (let x = -9 - r; x <= 9; x += step) {
    const between = normalBetween(x, x + r);
    inside += normalDensity(x) * between ** (n - 1);
  }
  return Math.max(0, 1 - n * step * inside);
}

import gammaln from '@stdlib/math-base-special-gammaln';
import { requireCount } from '../requirements.js';
import { normalUpperTail } from './normal-tail.js';

/**
 * The expected values of n standard normal numbers put in order, the smallest first:
 *
 *     E(i) = n! / ((i - 1)! (n - i)!) * integral of z phi(z) Phi(z)^(i - 1) (1 - Phi(z))^(n - i) dz
 *
 * by the trapezoidal rule, whose error vanishes faster than any power of the step here. About 1e-12.
 *
 * Source: Harter (1961), Biometrika 48, 151-165.
 */
export function normalScores(n: number): Float64Array {
  requireCount('normalScores', { n }, 1);
  const step = 0.05;
  const tail = new Float64Array(3);
  const grid = Array.from({ length: 401 }, (_, index) => {
    const z = (index - 200) * step;
    normalUpperTail(z, tail);
    const logAbove = tail[0] as number;
    normalUpperTail(-z, tail);
    return { z, logAbove, logBelow: tail[0] as number, logDensity: -0.5 * (z * z + Math.log(2 * Math.PI)) };
  });
  return Float64Array.from({ length: n }, (_, index) => {
    const logCount = gammaln(n + 1) - gammaln(index + 1) - gammaln(n - index);
    let sum = 0;
    for (const { z, logAbove, logBelow, logDensity } of grid)
      sum += z * Math.exp(logCount + logDensity + index * logBelow + (n - 1 - index) * logAbove);
    return sum * step;
  });
}

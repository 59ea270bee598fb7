import type { NoncentralT } from './noncentral-t.js';
import { normalCdf, normalDensity } from './normal.js';

/**
 * The noncentral t distribution as an integral over the chi density, for any degrees of freedom f:
 *
 *     P(T <= t) = integral over s of Phi(t s - d) g(s) ds,     s = sqrt(chi-square / f), d the shift
 *
 * Taken by the trapezoidal rule in ln s, where the integrand is analytic and falls to nothing at
 * both ends, so that the error shrinks faster than any power of the step (Trefethen and Weideman
 * 2014, SIAM Review 56, 385-458). The same sum of g alone normalises it: no gamma function, and no
 * cancellation at large f. Both tails are summed from positive terms, so both keep their digits.
 */
export function noncentralTByQuadrature(t: number, degrees: number, shift: number): NoncentralT {
  // Beyond these ends g, and g times either tail, is below 1e-18 of its largest value.
  const turn = t === 0 ? 0 : Math.min(0, Math.log((Math.abs(shift) + 9) / Math.abs(t)));
  const low = turn - 6.5 / Math.sqrt(degrees) - 42 / degrees;
  const high = 0.5 * Math.log1p(13 / Math.sqrt(degrees) + 84 / degrees);
  // The step follows the narrower of the two factors: the chi density and the normal slope.
  const steepness = Math.min(Math.abs(t) * Math.exp(high), Math.abs(shift) + 9);
  const count = Math.ceil(((high - low) * Math.sqrt(2 * degrees + 50 + steepness * steepness)) / 0.7);
  const step = (high - low) / count;

  let mass = 0;
  let below = 0;
  let above = 0;
  let density = 0;
  for (let index = 0; index <= count; index++) {
    const x = low + index * step;
    const g = Math.exp(degrees * (x - Math.expm1(2 * x) / 2));
    const s = Math.exp(x);
    const z = t * s - shift;
    mass += g;
    below += g * normalCdf(z);
    above += g * normalCdf(-z);
    density += g * s * normalDensity(z);
  }
  return { below: below / mass, above: above / mass, density: density / mass };
}

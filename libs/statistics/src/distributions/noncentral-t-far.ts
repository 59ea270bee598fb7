import { gammaShare } from './gamma.js';
import type { NoncentralT } from './noncentral-t.js';
import { normalDensity } from './normal.js';

/** Widths of the chi density, 1 / sqrt(2 f + 50), that a normal deviate must be smaller than, to be summed over here. */
const FAR = 30;

/**
 * Is the normal deviate so small beside the shift that the chi density is smooth where it moves? The integral over that
 * density would take the more points the smaller the deviate is.
 */
export function isFar(t: number, degrees: number, shift: number): boolean {
  return Math.min(Math.abs(t), Math.abs(shift)) > FAR * Math.sqrt(2 * degrees + 50);
}

/**
 * The noncentral t distribution far from zero (see `isFar`), for any degrees of freedom f: as an integral over the normal
 * deviate,
 *
 *     P(T <= t) = integral over z of P(X >= f u^2) phi(z) dz,     u = (z + d) / t, X chi-square, d the shift
 *
 * by the trapezoidal rule, whose error shrinks faster than any power of the step (Trefethen and Weideman 2014, SIAM Review
 * 56, 385-458). Both tails are summed from positive terms, so both keep their digits.
 */
export function noncentralTFar(t: number, degrees: number, shift: number): NoncentralT {
  // The deviate never reaches as far as the shift, so that T has its sign.
  if (t > 0 !== shift > 0) return t > 0 ? { below: 1, above: 0, density: 0 } : { below: 0, above: 1, density: 0 };
  if (t < 0) {
    const { below, above, density } = noncentralTFar(-t, degrees, -shift);
    return { below: above, above: below, density };
  }
  let [mass, below, above, density] = [0, 0, 0, 0];
  for (let z = -REACH; z <= REACH; z += STEP) {
    const phi = normalDensity(z);
    const u = (z + shift) / t;
    const share = gammaShare(degrees / 2, (degrees / 2) * u * u);
    mass += phi;
    below += phi * share.above;
    above += phi * share.below;
    // The chi density at u, times the slope u / t of u by t: 2 x g(x) / t with g the gamma density of x = f u^2 / 2.
    density += phi * share.density * ((degrees * u * u) / t);
  }
  return { below: below / mass, above: above / mass, density: density / mass };
}

const REACH = 12;
const STEP = 0.5;

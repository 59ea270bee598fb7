import { normalCdf, normalDensity } from './normal.js';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/**
 * What of a standard normal population lies above z, in three numbers that keep their digits however far out z is,
 * written into `out`:
 *
 *     ln Q(z),     hazard = phi(z) / Q(z),     excess = hazard - z
 *
 * with phi the density and Q the share above. Far out the hazard is nearly z; the excess is then the continued
 * fraction 1 / (z + 2 / (z + 3 / (z + ...))), for a difference would have no digits left.
 *
 * Source: Abramowitz and Stegun (1972), Handbook of Mathematical Functions, 26.2.14.
 */
export function normalUpperTail(z: number, out: Float64Array): void {
  if (z < 4) {
    const above = normalCdf(-z);
    const hazard = normalDensity(z) / above;
    out[0] = z < 0 ? Math.log1p(-normalCdf(z)) : Math.log(above);
    out[1] = hazard;
    out[2] = hazard - z;
    return;
  }
  let excess = 0;
  for (let term = Math.ceil(8 + 800 / (z * z)); term >= 1; term--) excess = term / (z + excess);
  const hazard = z + excess;
  out[0] = -0.5 * z * z - HALF_LOG_TWO_PI - Math.log(hazard);
  out[1] = hazard;
  out[2] = excess;
}

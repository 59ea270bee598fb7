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
    const below = z < 0 ? normalCdf(z) : 0;
    const above = z < 0 ? 1 - below : normalCdf(-z);
    const hazard = normalDensity(z) / above;
    out[0] = z < 0 ? Math.log1p(-below) : Math.log(above);
    out[1] = hazard;
    out[2] = hazard - z;
    return;
  }
  const excess = excessFarOut(z);
  const hazard = z + excess;
  out[0] = -0.5 * z * z - HALF_LOG_TWO_PI - Math.log(hazard);
  out[1] = hazard;
  out[2] = excess;
}

/** Natural logarithm of the share of a standard normal population above z, alone. */
export function logNormalSurvival(z: number): number {
  if (z < 0) return Math.log1p(-normalCdf(z));
  if (z < 4) return Math.log(normalCdf(-z));
  return -0.5 * z * z - HALF_LOG_TWO_PI - Math.log(z + excessFarOut(z));
}

function excessFarOut(z: number): number {
  let excess = 0;
  for (let term = Math.ceil(8 + 800 / (z * z)); term >= 1; term--) excess = term / (z + excess);
  return excess;
}

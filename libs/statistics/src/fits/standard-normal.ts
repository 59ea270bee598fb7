import { normalCdf, normalQuantile } from '../distributions/normal.js';
import { logNormalSurvival, normalUpperTail } from '../distributions/normal-tail.js';
import { gaussLegendre } from '../numerics/gauss-legendre.js';
import type { Family } from './family.js';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
const tail = new Float64Array(3);

/**
 * The standard normal distribution: that of a normal strength, with location its mean and scale its standard
 * deviation, and of the logarithm of a lognormal strength.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 1.3 and 5.3.
 */
export const standardNormal: Family = {
  quadratic: { constant: -HALF_LOG_TWO_PI },
  density(z, out) {
    out[0] = -0.5 * z * z - HALF_LOG_TWO_PI;
    out[1] = -z;
    out[2] = -1;
  },
  survival(z, out) {
    normalUpperTail(z, tail);
    const hazard = tail[1] as number;
    out[0] = tail[0] as number;
    out[1] = -hazard;
    out[2] = -hazard * (tail[2] as number);
  },
  failure(z, out) {
    normalUpperTail(-z, tail);
    const hazard = tail[1] as number;
    out[0] = tail[0] as number;
    out[1] = hazard;
    out[2] = -hazard * (tail[2] as number);
  },
  between(lower, length, out) {
    if (2 * lower + length >= 0) return upperInterval(lower, length, out);
    // By symmetry the interval from -(lower + length) to -lower has the same chance.
    upperInterval(-lower - length, length, out);
    const byLower = out[1] as number;
    const lowerTwice = out[3] as number;
    const both = out[4] as number;
    out[1] = -byLower;
    out[2] = (out[2] as number) - byLower;
    out[4] = lowerTwice - both;
    out[5] = lowerTwice - 2 * both + (out[5] as number);
  },
  logDensity: (z) => -0.5 * z * z - HALF_LOG_TWO_PI,
  logSurvival: logNormalSurvival,
  logFailure: (z) => logNormalSurvival(-z),
  quantile: normalQuantile,
  share: (z) => normalCdf(-z),
};

/** The interval from l on, of length d, its middle at 0 or above. */
function upperInterval(l: number, d: number, out: Float64Array): void {
  if (d < 4 && Math.abs(l) * d < 40) byQuadrature(l, d, out);
  else byTails(l, d, out);
}

const { points, weights } = gaussLegendre(32);

/**
 * Where little of the density passes between the two ends their difference has no digits, so it is integrated:
 *
 *     F(l + d) - F(l) = phi(l) I,     I = integral from 0 to d of exp(-l t - t^2 / 2) dt
 *
 * and the derivatives of its logarithm follow from mean and variance of t under the integral.
 */
function byQuadrature(l: number, d: number, out: Float64Array): void {
  let [integral, first, second] = [0, 0, 0];
  for (let index = 0; index < points.length; index++) {
    const t = d * (points[index] as number);
    const height = d * (weights[index] as number) * Math.exp(-t * (l + t / 2));
    integral += height;
    first += height * t;
    second += height * t * t;
  }
  const mean = first / integral;
  const end = Math.exp(-d * (l + d / 2)) / integral;
  out[0] = -0.5 * l * l - HALF_LOG_TWO_PI + Math.log(integral);
  out[1] = -l - mean;
  out[2] = end;
  out[3] = second / integral - mean * mean - 1;
  out[4] = end * (mean - d);
  out[5] = -end * (l + d + end);
}

/** Where most of the density above l passes, from phi(l) and phi(u) divided by F(u) - F(l), with u = l + d. */
function byTails(l: number, d: number, out: Float64Array): void {
  const u = l + d;
  normalUpperTail(l, tail);
  const logAbove = tail[0] as number;
  const hazard = tail[1] as number;
  const excess = tail[2] as number;
  normalUpperTail(u, tail);
  const beyond = Math.exp((tail[0] as number) - logAbove);
  const atLower = hazard / (1 - beyond);
  const atUpper = ((tail[1] as number) * beyond) / (1 - beyond);
  // atLower - l, without the cancellation of the two far out.
  const rest = (excess + l * beyond) / (1 - beyond);
  out[0] = logAbove + Math.log1p(-beyond);
  out[1] = atUpper - atLower;
  out[2] = atUpper;
  out[3] = -atLower * rest + atUpper * (2 * atLower - atUpper - u);
  out[4] = -atUpper * (u + atUpper - atLower);
  out[5] = -atUpper * (u + atUpper);
}

import type { Family } from './family.js';

// A specimen so far out has a likelihood of exp(-10^26); a search that strays there must still find its way back.
const LARGEST_Z = 60;

/**
 * The standard smallest extreme value distribution, F(z) = 1 - exp(-exp(z)): that of the logarithm
 * of a Weibull strength, with location ln scale and scale 1 / shape.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 1.3 and 5.2.
 */
export const smallestExtremeValue: Family = {
  density(z, out) {
    const hazard = Math.exp(Math.min(z, LARGEST_Z));
    out[0] = z - hazard;
    out[1] = 1 - hazard;
    out[2] = -hazard;
  },
  survival(z, out) {
    const hazard = Math.exp(Math.min(z, LARGEST_Z));
    out[0] = -hazard;
    out[1] = -hazard;
    out[2] = -hazard;
  },
  failure(z, out) {
    const hazard = Math.exp(Math.min(z, LARGEST_Z));
    const slope = hazard / Math.expm1(hazard);
    // Where exp(z) underflows, ln F(z) is z to the last digit.
    out[0] = hazard < 1e-300 ? z : Math.log(-Math.expm1(-hazard));
    out[1] = hazard < 1e-300 ? 1 : slope;
    out[2] = hazard < 1e-300 ? 0 : slope * (1 - hazard - slope);
  },
  between(lower, length, out) {
    const low = Math.exp(Math.max(-LARGEST_Z, Math.min(lower, LARGEST_Z)));
    const width = low * Math.expm1(length);
    const high = Math.min(low + width, Math.exp(LARGEST_Z));
    const odds = 1 / Math.expm1(width);
    const curvature = odds * (1 + odds);
    out[0] = -low + Math.log(-Math.expm1(-width)) + Math.min(0, lower + LARGEST_Z);
    out[1] = -low * (1 + odds);
    out[2] = high * odds;
    out[3] = -low * (1 + odds) - low * low * curvature;
    out[4] = low * high * curvature;
    out[5] = high * odds - high * high * curvature;
  },
  quantile: (p) => Math.log(-Math.log1p(-p)),
  share: (z) => Math.exp(-Math.exp(z)),
};

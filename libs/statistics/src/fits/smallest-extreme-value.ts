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
    const start = Math.min(lower, LARGEST_Z);
    const hazard = Math.exp(start);
    // The cumulative hazard over the interval, exp(lower) (exp(length) - 1), and how its logarithm grows.
    const growth = -1 / Math.expm1(-length);
    const logRise = start + length - Math.log(growth);
    const rise = Math.exp(Math.min(logRise, LARGEST_Z));
    const slope = rise / Math.expm1(rise);
    const bend = slope * (1 - rise - slope);
    out[0] = -hazard + (logRise < -40 ? logRise : Math.log(-Math.expm1(-rise)));
    out[1] = slope - hazard;
    out[2] = slope * growth;
    out[3] = bend - hazard;
    out[4] = bend * growth;
    out[5] = bend * growth * growth - slope * growth * (growth - 1);
  },
  logDensity: (z) => z - Math.exp(Math.min(z, LARGEST_Z)),
  logSurvival: (z) => -Math.exp(Math.min(z, LARGEST_Z)),
  logFailure(z) {
    const hazard = Math.exp(Math.min(z, LARGEST_Z));
    return hazard < 1e-300 ? z : Math.log(-Math.expm1(-hazard));
  },
  quantile: (p) => Math.log(-Math.log1p(-p)),
  share: (z) => Math.exp(-Math.exp(z)),
};

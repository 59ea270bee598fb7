import { type AncillarySample, posteriorNodes } from '../bounds/weibull-conditional.js';
import { normalDensity, normalQuantile } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';

/** The chances that the smallest of m future strengths lies above and below scale^ exp(z / shape^). */
export interface MinimumChances {
  above: number;
  below: number;
  /** Derivative of `above` by z, with its sign turned. */
  slope: number;
}

/**
 * The chance that the smallest of m future Weibull strengths exceeds scale^ exp(z / shape^), ^ the fitted values, given how
 * the specimens lie relative to each other:
 *
 *     above(z) = integral over t of h(t) (1 + m exp(t z) / S(t))^(-r) dt
 *
 * with h, S and the r failures as in `conditionalPivot`: the same distribution of the parameters, and exp(-m x) averaged
 * over the gamma distribution that it gives to the scale. Exact for complete samples and for tests ended at the r-th
 * failure. `near` is about the z that will be asked for: the farther out, the finer the steps of the integral.
 *
 * Source: Lawless (1973), Technometrics 15, 857-865; Lawless (2003), 2nd ed., section 5.1 and appendix G.
 */
export function weibullMinimum(sample: AncillarySample, m: number, near: number): (z: number) => MinimumChances {
  const r = sample.broke.length;
  // Beyond 60 the chances are 0 and 1 however fine the steps.
  const nodes = posteriorNodes(sample, Math.max(-60, Math.min(60, near)), 1);
  return (z) => {
    let [above, below, slope] = [0, 0, 0];
    for (const { t, weight, sum } of nodes) {
      const load = (m * Math.exp(t * z)) / sum;
      const logAbove = -r * Math.log1p(load);
      above += weight * Math.exp(logAbove);
      below -= weight * Math.expm1(logAbove);
      slope += weight * r * t * (load / (1 + load)) * Math.exp(logAbove);
    }
    return { above, below, slope };
  };
}

/** The z that the smallest of m future strengths exceeds with this confidence. */
export function weibullMinimumPoint(sample: AncillarySample, m: number, confidence: number): number {
  const near = Math.log(-Math.log(confidence)) - Math.log(m);
  const chances = weibullMinimum(sample, m, near);
  const score = normalQuantile(confidence);
  // Rises as z falls, so the search runs in -z.
  const negative = rootOfIncreasing(
    (minusZ) => {
      const { above, below, slope } = chances(-minusZ);
      const scoreHere = above < below ? normalQuantile(above) : -normalQuantile(below);
      return { value: scoreHere - score, slope: slope / normalDensity(scoreHere) };
    },
    -near,
    1,
  );
  return -negative;
}

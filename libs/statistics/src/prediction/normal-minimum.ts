import { normalCdf } from '../distributions/normal.js';
import { requireCount } from '../requirements.js';

/** Whether the smallest of m future values lies above mean - factor s: both chances, and how the first changes. */
export interface MinimumShare {
  above: number;
  below: number;
  /** Derivative of `above` by the factor. */
  slope: number;
}

interface Node {
  at: number;
  weight: number;
}

/**
 * The chance that the smallest of m future normal values lies above mean - factor s, mean and s those of n values of the
 * same population:
 *
 *     above = E over z and s of Phi(factor s - z)^m,     z normal of variance 1 / n,  (n - 1) s^2 chi-square (n - 1)
 *
 * for a population of mean 0 and scatter 1. Both integrals by the trapezoidal rule, in z and in ln s, where the integrand
 * falls off on both sides so that the error of equal steps vanishes faster than any power of the step.
 *
 * Source: Hahn (1970), Technometrics 12, 667-676; Hahn and Meeker (1991), Statistical Intervals, section 4.8.
 */
export function minimumOfFuture(n: number, m: number): (factor: number) => MinimumShare {
  requireCount('minimumOfFuture', { n }, 2);
  requireCount('minimumOfFuture', { m }, 1);
  // The smallest of thousands falls off more sharply.
  const [meanStep, scatterStep] = m > 1000 ? [0.15, 0.06] : [0.25, 0.12];
  const means = nodes(0, meanStep, (z) => -0.5 * z * z).map(({ at, weight }) => ({ at: at / Math.sqrt(n), weight }));
  const degrees = n - 1;
  // In u = ln s the density is exp(degrees (u - exp(2 u) / 2)), highest at 0.
  const scatters = nodes(
    0,
    Math.min(scatterStep, 0.35 / Math.sqrt(2 * degrees)),
    (u) => degrees * (u + 0.5 - Math.exp(2 * u) / 2),
  ).map(({ at, weight }) => ({ at: Math.exp(at), weight }));
  return (factor) => {
    let [above, below, slope] = [0, 0, 0];
    for (const scatter of scatters)
      for (const mean of means) {
        const y = factor * scatter.at - mean.at;
        const weight = scatter.weight * mean.weight;
        const smaller = normalCdf(-y);
        const logAll = m * Math.log1p(-smaller);
        const all = Math.exp(logAll);
        above += weight * all;
        below -= weight * Math.expm1(logAll);
        if (smaller < 1) slope += (weight * scatter.at * m * all * Math.exp(-0.5 * y * y)) / (1 - smaller);
      }
    return { above, below, slope: slope / Math.sqrt(2 * Math.PI) };
  };
}

/** Equal steps from the top outward until nothing is left, with the weights of a density brought to sum to 1. */
function nodes(top: number, step: number, logDensity: (at: number) => number): Node[] {
  const found: Node[] = [];
  for (const direction of [-1, 1])
    for (let index = direction === 1 ? 0 : 1; ; index++) {
      const at = top + direction * index * step;
      const weight = Math.exp(logDensity(at));
      if (weight < 1e-19) break;
      found.push({ at, weight });
    }
  const mass = found.reduce((sum, { weight }) => sum + weight, 0);
  return found.map(({ at, weight }) => ({ at, weight: weight / mass }));
}

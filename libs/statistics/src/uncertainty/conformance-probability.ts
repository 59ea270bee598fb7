import { normalBetween } from '../distributions/normal-between.js';
import { requireFinite, requirePositive } from '../requirements.js';
import { endsOf, type Interval, requireInterval } from './interval.js';

/** What is known before a measurement, in the unit of the value. */
export interface PriorKnowledge {
  mean: number;
  sd: number;
}

export interface ConformanceProbability {
  method: 'conformance probability';
  /** That the quantity lies within the tolerance, a fraction. */
  probability: number;
  /** What is known of it after the measurement, in the unit of the value. */
  mean: number;
  standardUncertainty: number;
}

/**
 * How likely is it that a quantity lies within its tolerance, given a measured value y with standard uncertainty u?
 *
 *     probability = Phi((T_U - y) / u) - Phi((T_L - y) / u)
 *
 * With a prior N(m, s^2), y and u are replaced by the mean (m / s^2 + y / u^2) v and the standard uncertainty sqrt v,
 * v = 1 / (1 / s^2 + 1 / u^2).
 *
 * Assumes that what the measurement says is normal. All numbers in one unit.
 *
 * Source: JCGM 106:2012, clauses 6 and 7.
 */
export function conformanceProbability(
  value: number,
  standardUncertainty: number,
  tolerance: Interval,
  prior?: PriorKnowledge,
): ConformanceProbability {
  requireFinite('conformanceProbability', { value });
  requirePositive('conformanceProbability', { standardUncertainty });
  requireInterval('conformanceProbability', 'the tolerance', tolerance);
  const [mean, u] = prior === undefined ? [value, standardUncertainty] : after(value, standardUncertainty, prior);
  const [lower, upper] = endsOf(tolerance);
  return {
    method: 'conformance probability',
    probability: normalBetween((lower - mean) / u, (upper - mean) / u),
    mean,
    standardUncertainty: u,
  };
}

function after(value: number, u: number, prior: PriorKnowledge): [number, number] {
  requireFinite('conformanceProbability', { 'prior mean': prior.mean });
  requirePositive('conformanceProbability', { 'prior sd': prior.sd });
  // As a share, which neither overflows nor vanishes.
  const share = 1 / (1 + (u / prior.sd) ** 2);
  return [prior.mean + share * (value - prior.mean), u * Math.sqrt(share)];
}

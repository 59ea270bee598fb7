import { normalDensity } from '../distributions/normal.js';
import { normalBetween } from '../distributions/normal-between.js';
import { gaussLegendre } from '../numerics/gauss-legendre.js';
import { requireFinite, requirePositive } from '../requirements.js';
import type { PriorKnowledge } from './conformance-probability.js';
import { endsOf, type Interval, requireInterval } from './interval.js';

export interface AcceptanceRisks {
  method: 'acceptance risks';
  /** Share of all items that is accepted and does not conform. */
  consumerRisk: number;
  /** Share of all items that conforms and is not accepted. */
  producerRisk: number;
  /** Share of all items that conforms. */
  conforming: number;
  /** Share of all items that is accepted. */
  accepted: number;
}

const { points, weights } = gaussLegendre(16);

/** Steps in standard deviations at which the integral is broken, dense where a normal share rises. */
const STEPS = [0, 0.25, 0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8, 10, 12, 15, 18, 22, 27, 32, 38];

/**
 * Of items drawn from a production N(m, s^2), measured with an error N(0, u^2) and accepted where the measured value lies
 * within the acceptance interval, what share is wrongly accepted, and what share wrongly refused?
 *
 *     consumer risk = integral over values outside the tolerance of  density x P(accepted | value)
 *     producer risk = integral over values within it of             density x (1 - P(accepted | value))
 *
 * by Gauss-Legendre panels broken at both intervals and at steps of both standard deviations, so that a very small and a
 * very large u keep their digits. All numbers in one unit; an open side is left out.
 *
 * Assumes production and measurement normal and independent. Source: JCGM 106:2012, clause 9.
 */
export function acceptanceRisks(
  prior: PriorKnowledge,
  standardUncertainty: number,
  tolerance: Interval,
  acceptance: Interval,
): AcceptanceRisks {
  requireFinite('acceptanceRisks', { mean: prior.mean });
  requirePositive('acceptanceRisks', { sd: prior.sd, standardUncertainty });
  requireInterval('acceptanceRisks', 'the tolerance', tolerance);
  requireInterval('acceptanceRisks', 'the acceptance interval', acceptance);

  // From the middle of production on, so that limits of many digits lose none.
  const from = ([lower, upper]: [number, number]): [number, number] => [lower - prior.mean, upper - prior.mean];
  const [lower, upper] = from(endsOf(tolerance));
  const within = from(endsOf(acceptance));
  const density = (value: number) => normalDensity(value / prior.sd) / prior.sd;
  const accepted = (value: number) => shareWithin(within, value, standardUncertainty);
  const breaks = breaksFor(prior.sd, standardUncertainty, [lower, upper, ...within]);
  const over = (a: number, b: number, height: (value: number) => number) => integral(a, b, breaks, height);
  const [least, most] = [-38 * prior.sd, 38 * prior.sd];
  const wrongly = (value: number) => density(value) * accepted(value);
  const all = Math.hypot(prior.sd, standardUncertainty);
  return {
    method: 'acceptance risks',
    consumerRisk: over(least, lower, wrongly) + over(upper, most, wrongly),
    producerRisk: over(
      Math.max(least, lower),
      Math.min(most, upper),
      (value) => density(value) * refused(within, value, standardUncertainty),
    ),
    conforming: normalBetween(lower / prior.sd, upper / prior.sd),
    accepted: normalBetween(within[0] / all, within[1] / all),
  };
}

function shareWithin([lower, upper]: [number, number], value: number, u: number): number {
  return normalBetween((lower - value) / u, (upper - value) / u);
}

function refused([lower, upper]: [number, number], value: number, u: number): number {
  const beyond = Number.POSITIVE_INFINITY;
  return normalBetween(-beyond, (lower - value) / u) + normalBetween((upper - value) / u, beyond);
}

function breaksFor(sd: number, u: number, limits: number[]): number[] {
  const found = STEPS.flatMap((step) => [step * sd, -step * sd]);
  for (const limit of limits)
    if (Number.isFinite(limit)) found.push(...STEPS.flatMap((step) => [limit + step * u, limit - step * u]));
  return found.sort((a, b) => a - b);
}

function integral(from: number, to: number, breaks: readonly number[], height: (value: number) => number): number {
  if (!(from < to)) return 0;
  let sum = 0;
  let start = from;
  for (const end of [...breaks.filter((place) => place > from && place < to), to]) {
    const width = end - start;
    if (width > 0)
      for (let index = 0; index < points.length; index++)
        sum += width * (weights[index] as number) * height(start + width * (points[index] as number));
    start = end;
  }
  return sum;
}

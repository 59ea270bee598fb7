import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { NoConvergence } from '../numerics/no-convergence.js';
import type { Likelihood, LikelihoodAt } from './likelihood.js';
import type { Observations } from './observations.js';

/** Where a likelihood is largest. */
export interface Maximum {
  intercept: number;
  slope: number;
  at: LikelihoodAt;
}

/**
 * Why a location-scale likelihood has no finite maximum for these observations, if it has none.
 *
 * It has one exactly if no single value lies in every observation at once (exact values as points,
 * the others as closed intervals): where one does, the scale can shrink to nothing around it. If
 * specimens are known from one side only, the values at or below which some broke must also exceed,
 * on average, those the others held, or the scale grows without end.
 *
 * Source: the directions in which a concave likelihood never falls; Silvapulle and Burridge (1986),
 * J. R. Statist. Soc. B 48, 100-106. For exact and at-least values it says that some failure lies
 * strictly below the largest value recorded.
 */
export function whyNoMaximum({
  exact,
  atLeast,
  atMost,
  lower,
  upper,
  n,
  failures,
}: Observations): NotEvaluated | undefined {
  if (n === 0) return notEvaluated('the sample is empty', 'specimens are tested');
  if (failures === 0)
    return notEvaluated(
      'no specimen broke, so nothing limits the scale from above',
      'at least one specimen breaks below the largest value held',
    );

  const highestLow = Math.max(largest(exact), largest(atLeast), largest(lower));
  const lowestHigh = Math.min(smallest(exact), smallest(atMost), smallest(upper));
  if (highestLow <= lowestHigh)
    return exact.length > 0
      ? notEvaluated(
          'no failure lies strictly below the largest value recorded, so nothing limits how alike the specimens are',
          'at least one specimen breaks at a value below the largest value recorded',
        )
      : notEvaluated(
          'one single strength would explain every specimen, so nothing limits how alike they are',
          'specimens differ: one holds a value at or above which another is known to have broken',
        );

  const oneSidedOnly = exact.length === 0 && lower.length === 0;
  if (oneSidedOnly && mean(atMost) <= mean(atLeast))
    return notEvaluated(
      'specimens broke no more often at higher values than at lower ones, so nothing limits their scatter',
      'some strengths are known exactly or within an interval',
    );
  return undefined;
}

/**
 * The maximum of a concave location-scale likelihood, known to have one: Newton's method, each step
 * halved until the likelihood does not fall.
 */
export function maximumOf(likelihood: Likelihood): Maximum {
  let intercept = 0;
  let slope = 1;
  let here = likelihood.at(intercept, slope);
  for (let iteration = 0; iteration < 500; iteration++) {
    const determinant = here.byInterceptTwice * here.bySlopeTwice - here.byBoth * here.byBoth;
    let byIntercept = (here.bySlope * here.byBoth - here.byIntercept * here.bySlopeTwice) / determinant;
    let bySlope = (here.byIntercept * here.byBoth - here.bySlope * here.byInterceptTwice) / determinant;
    // Half of the gain that the quadratic approximation promises.
    const promise = here.byIntercept * byIntercept + here.bySlope * bySlope;
    if (Number.isNaN(promise)) throw new NoConvergence('an interval is too short beside the spread of the sample');
    if (!(promise > 0)) return sharp({ intercept, slope, at: here });

    // The slope is above 0, and one step never shrinks it tenfold.
    const shortened = bySlope < -0.9 * slope ? (-0.9 * slope) / bySlope : 1;
    byIntercept *= shortened;
    bySlope *= shortened;
    const slack = 1e-13 * Math.abs(here.value);
    let next = likelihood.at(intercept + byIntercept, slope + bySlope);
    for (let halving = 0; halving < 60 && !(next.value >= here.value - slack); halving++) {
      byIntercept /= 2;
      bySlope /= 2;
      next = likelihood.at(intercept + byIntercept, slope + bySlope);
    }
    intercept += byIntercept;
    slope += bySlope;
    here = next;
    // The error left after this step is of the order of the promise itself, in standard errors.
    if (promise < 1e-13) return sharp({ intercept, slope, at: here });
  }
  throw new NoConvergence('the likelihood did not reach its maximum within 500 steps');
}

/** The maximum, if the curvature there has digits left of which a standard error can be made. */
function sharp(maximum: Maximum): Maximum {
  const { byInterceptTwice, bySlopeTwice, byBoth } = maximum.at;
  const product = byInterceptTwice * bySlopeTwice;
  if (byInterceptTwice < 0 && product - byBoth * byBoth > 1e-12 * product) return maximum;
  throw new NoConvergence('the likelihood is so flat in one direction that its curvature is lost in rounding');
}

function largest(values: Float64Array): number {
  let found = Number.NEGATIVE_INFINITY;
  for (const value of values) if (value > found) found = value;
  return found;
}

function smallest(values: Float64Array): number {
  let found = Number.POSITIVE_INFINITY;
  for (const value of values) if (value < found) found = value;
  return found;
}

function mean(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}

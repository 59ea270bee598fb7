import { notEvaluated } from '@breakbook/lab';
import type { Described } from '../description/summary.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { settled } from '../numerics/no-convergence.js';
import type { BinaryCovariance, BinaryLikelihood, BinaryMaximum } from './binary-likelihood.js';

/** Two-sided limits of a level, found in two ways. */
export interface LevelLimits {
  /** By profile likelihood. */
  profile: [Described, Described];
  /** By Fieller's theorem. */
  fieller: [Described, Described];
}

/** Standard error of the place where the predictor is eta, by its slope (delta method). */
export function errorOfPlace({ intercept, slope }: BinaryMaximum, covariance: BinaryCovariance, eta: number): number {
  const place = (eta - intercept) / slope;
  const variance = covariance.intercept + 2 * place * covariance.both + place * place * covariance.slope;
  return Math.sqrt(variance) / Math.abs(slope);
}

/** Both kinds of limits of the place where the predictor is eta, on the scale of the likelihood. */
export function levelLimits(
  likelihood: BinaryLikelihood,
  maximum: BinaryMaximum,
  covariance: BinaryCovariance,
  eta: number,
  score: number,
): LevelLimits {
  const place = (eta - maximum.intercept) / maximum.slope;
  const error = errorOfPlace(maximum, covariance, eta);
  return {
    profile: profileLimits(likelihood, maximum, place, error, eta, score),
    fieller: fiellerLimits(maximum, covariance, place, score),
  };
}

function profileLimits(
  likelihood: BinaryLikelihood,
  maximum: BinaryMaximum,
  place: number,
  error: number,
  eta: number,
  score: number,
): [Described, Described] {
  // However far away the place is taken, a curve that breaks the same share everywhere remains.
  if (2 * (maximum.value - likelihood.flat()) <= score * score) {
    const none = notEvaluated(
      'the share breaking does not surely change with the level, so the likelihood leaves it open how far away this level lies',
      'more specimens are struck, farther from the median',
    );
    return [none, none];
  }
  const limit = (aim: number): Described =>
    settled<Described, Described>(
      () =>
        rootOfIncreasing(
          (tried) => {
            const { value, byPlace } = likelihood.profile(tried, eta, maximum.slope);
            const root = Math.sign(tried - place) * Math.sqrt(Math.max(0, 2 * (maximum.value - value)));
            // Within rounding of the maximum the root carries no digits; there its slope is that of the curvature.
            return { value: root - aim, slope: Math.abs(root) < 1e-4 ? 1 / error : -byPlace / root };
          },
          place + aim * error,
          error,
        ),
      () =>
        notEvaluated(
          'the search for the limit did not settle',
          'the confidence is lower, or more specimens are struck',
        ),
    );
  return [limit(-score), limit(score)];
}

/** Source: Fieller (1954); Finney (1971), section 4.7, with g = score^2 var(slope) / slope^2. */
function fiellerLimits(
  { slope }: BinaryMaximum,
  covariance: BinaryCovariance,
  place: number,
  score: number,
): [Described, Described] {
  const g = (score * score * covariance.slope) / (slope * slope);
  if (g >= 1) {
    const none = notEvaluated(
      "the slope does not surely differ from 0, so that Fieller's limits are not finite",
      'more specimens are struck, farther from the median',
    );
    return [none, none];
  }
  const { intercept, both } = covariance;
  const variance = intercept + 2 * place * both + place * place * covariance.slope;
  const rest = g * (intercept - (both * both) / covariance.slope);
  const middle = place + (g / (1 - g)) * (place + both / covariance.slope);
  const reach = (score / (Math.abs(slope) * (1 - g))) * Math.sqrt(Math.max(0, variance - rest));
  return [middle - reach, middle + reach];
}

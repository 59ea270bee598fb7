import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import type { WeibullParameters } from '../distributions/weibull.js';
import { settled } from '../numerics/no-convergence.js';
import { requireFraction, requirePositive } from '../requirements.js';
import { Likelihood } from './likelihood.js';
import { type Maximum, maximumOf, whyNoMaximum } from './maximum.js';
import { logObservations } from './observations.js';
import { profileLimit, twoSidedScores } from './profile.js';
import { covarianceAt, type Quantity, waldOf } from './quantity.js';
import { smallestExtremeValue } from './smallest-extreme-value.js';

/** A limit that the data put on a number, or why they put none. */
export type Limit = number | NotEvaluated;

export interface WeibullEstimates extends WeibullParameters {
  method: 'Weibull maximum likelihood';
  n: number;
  failures: number;
  logLikelihood: number;
  /** 4 - 2 ln L: two parameters. */
  aic: number;
  standardErrors: { shape: number; scale: number; logShape: number; logScale: number };
  covariance: { logScaleLogShape: number };
}

export interface WeibullFit extends WeibullEstimates {
  /** Two-sided for `limits`, one-sided for `lower`. */
  confidence: number;
  limits: { shape: [Limit, Limit]; scale: [Limit, Limit] };
  quantiles: {
    /** The share that fails below `value`. */
    fraction: number;
    value: number;
    limits: [Limit, Limit];
    lower: Limit;
    /** On the logarithmic scale, from the standard error. */
    waldLimits: [Limit, Limit];
  }[];
  reliability: {
    at: number;
    /** The share that holds more than `at`. */
    value: number;
    limits: [Limit, Limit];
    lower: Limit;
  }[];
}

export interface WeibullFitOptions {
  confidence?: number;
  /** Shares failing at which the strength is asked for. */
  quantiles?: readonly number[];
  /** Strengths at which the share surviving is asked for. */
  at?: readonly number[];
}

/**
 * Which Weibull distribution explains these strengths best, and how surely? Maximum likelihood, with
 *
 *     S(x) = exp(-(x / scale)^shape)
 *     ln L = sum over exact of ln f(x) + at least of ln S(x) + at most of ln (1 - S(x))
 *          + intervals of ln (S(a) - S(b))
 *
 * Standard errors from the observed information; limits and `lower` by profile likelihood.
 * Strengths in any one unit, all above 0; the scale comes back in that unit.
 *
 * Assumes specimens independent and drawn at random, and that what ended a test early had nothing
 * to do with how much more the specimen would have held. Profile limits are too bold in small
 * samples: they describe a fit and are no basis for acceptance (see `lowerToleranceBound`).
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 5.1 and 5.2.
 */
export function fitWeibull(sample: Sample, options: WeibullFitOptions = {}): WeibullFit | NotEvaluated {
  const { confidence = 0.95, quantiles = [], at = [] } = options;
  requireFraction('fitWeibull', { confidence });
  for (const fraction of quantiles) requireFraction('fitWeibull', { fraction });
  for (const strength of at) requirePositive('fitWeibull', { at: strength });

  const found = maximumFor('fitWeibull', sample);
  if (isNotEvaluated(found)) return found;
  const { likelihood, maximum } = found;
  const beyond = [0, ...quantiles.map(smallestExtremeValue.quantile)]
    .map((z) => strengthFrom(waldOf({ kind: 'value', z }, maximum).estimate, likelihood))
    .find(isNotEvaluated);
  if (beyond) return beyond;

  const [lowScore, highScore] = twoSidedScores(confidence);
  const lowerScore = normalQuantile(1 - confidence);
  const limit = (quantity: Quantity, score: number) => profileLimit(quantity, likelihood, maximum, score);
  const strengthLimit = (z: number, score: number) => strengthFrom(limit({ kind: 'value', z }, score), likelihood);
  const shareLimit = (y: number, score: number) => shareFrom(limit({ kind: 'score', y }, score));
  const shapeLimit = (score: number) => shapeFrom(limit({ kind: 'logSlope' }, score), likelihood);

  return {
    ...estimatesAt(likelihood, maximum),
    confidence,
    limits: {
      shape: [shapeLimit(lowScore), shapeLimit(highScore)],
      scale: [strengthLimit(0, lowScore), strengthLimit(0, highScore)],
    },
    quantiles: quantiles.map((fraction) => {
      const z = smallestExtremeValue.quantile(fraction);
      const { estimate, standardError } = waldOf({ kind: 'value', z }, maximum);
      return {
        fraction,
        value: Math.exp(likelihood.centre + likelihood.spread * estimate),
        limits: [strengthLimit(z, lowScore), strengthLimit(z, highScore)],
        lower: strengthLimit(z, lowerScore),
        waldLimits: [
          strengthFrom(estimate + lowScore * standardError, likelihood),
          strengthFrom(estimate + highScore * standardError, likelihood),
        ],
      };
    }),
    reliability: at.map((strength) => {
      const y = (Math.log(strength) - likelihood.centre) / likelihood.spread;
      return {
        at: strength,
        value: smallestExtremeValue.share(maximum.intercept + maximum.slope * y),
        // The share surviving falls as the standardised value rises, so the ends change places.
        limits: [shareLimit(y, highScore), shareLimit(y, lowScore)],
        lower: shareLimit(y, -lowerScore),
      };
    }),
  };
}

/** The estimates of `fitWeibull` with their standard errors, without the limits, which take longer. */
export function estimateWeibull(sample: Sample): WeibullEstimates | NotEvaluated {
  const found = maximumFor('estimateWeibull', sample);
  return isNotEvaluated(found) ? found : estimatesAt(found.likelihood, found.maximum);
}

/** The log-likelihood of a sample under one given Weibull distribution; always finite to ask, fitted or not. */
export function weibullLogLikelihood(sample: Sample, { shape, scale }: WeibullParameters): number {
  requirePositive('weibullLogLikelihood', { shape, scale });
  const observations = logObservations('weibullLogLikelihood', sample);
  const likelihood = new Likelihood(smallestExtremeValue, observations);
  const { intercept, slope } = likelihood.interceptAndSlope(Math.log(scale), 1 / shape);
  return likelihood.at(intercept, slope).value - sumOf(observations.exact);
}

function maximumFor(caller: string, sample: Sample): { likelihood: Likelihood; maximum: Maximum } | NotEvaluated {
  const observations = logObservations(caller, sample);
  const impossible = whyNoMaximum(observations);
  if (impossible) return impossible;
  const likelihood = new Likelihood(smallestExtremeValue, observations);
  return settled(
    () => ({ likelihood, maximum: maximumOf(likelihood) }),
    () =>
      notEvaluated(
        'the search for the largest likelihood did not settle: the specimens are too nearly alike',
        'strengths are known exactly, or their intervals overlap less closely',
      ),
  );
}

function estimatesAt(likelihood: Likelihood, maximum: Maximum): WeibullEstimates {
  const { n, failures, exact } = likelihood.observations;
  const { location, scale } = likelihood.locationAndScale(maximum.intercept, maximum.slope);
  const [shape, strength] = [1 / scale, Math.exp(location)];
  // The density of a strength is that of its logarithm divided by the strength.
  const logLikelihood = maximum.at.value - sumOf(exact);

  const { standardError: logShape } = waldOf({ kind: 'logSlope' }, maximum);
  const centre = waldOf({ kind: 'value', z: 0 }, maximum);
  const logScale = likelihood.spread * centre.standardError;
  return {
    method: 'Weibull maximum likelihood',
    n,
    failures,
    shape,
    scale: strength,
    logLikelihood,
    aic: 4 - 2 * logLikelihood,
    standardErrors: { shape: shape * logShape, scale: strength * logScale, logShape, logScale },
    covariance: { logScaleLogShape: likelihood.spread * covarianceOfLocationAndLogSlope(maximum) },
  };
}

/** Covariance of -intercept / slope with ln slope, from the curvature at the maximum. */
function covarianceOfLocationAndLogSlope(maximum: Maximum): number {
  const { intercept, slope } = maximum;
  const covariance = covarianceAt(maximum);
  return (-covariance.both / slope + (intercept / slope ** 2) * covariance.slope) / slope;
}

function strengthFrom(limit: Limit, { centre, spread }: Likelihood): Limit {
  if (isNotEvaluated(limit)) return limit;
  const strength = Math.exp(centre + spread * limit);
  if (strength > 0 && Number.isFinite(strength)) return strength;
  return notEvaluated(
    `it lies beyond every strength a number can hold (its logarithm is ${centre + spread * limit})`,
    'more specimens break, or strengths scatter less',
  );
}

function shareFrom(limit: Limit): Limit {
  return isNotEvaluated(limit) ? limit : smallestExtremeValue.share(limit);
}

function shapeFrom(limit: Limit, { spread }: Likelihood): Limit {
  return isNotEvaluated(limit) ? limit : Math.exp(limit) / spread;
}

function sumOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

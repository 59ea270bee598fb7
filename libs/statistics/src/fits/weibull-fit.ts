import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import type { WeibullParameters } from '../distributions/weibull.js';
import { requirePositive } from '../requirements.js';
import {
  estimateLocationScale,
  type FitOptions,
  fitLocationScale,
  type Limit,
  type LocationScaleEstimates,
  logLikelihoodAt,
  type QuantileEstimate,
  type ReliabilityEstimate,
} from './location-scale-fit.js';
import { weibullModel } from './strength-model.js';

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
  quantiles: QuantileEstimate[];
  reliability: ReliabilityEstimate[];
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
export function fitWeibull(sample: Sample, options: FitOptions = {}): WeibullFit | NotEvaluated {
  const fit = fitLocationScale('fitWeibull', weibullModel, sample, options);
  if (isNotEvaluated(fit)) return fit;
  const { confidence, limits, quantiles, reliability } = fit;
  return {
    ...weibullFrom(fit),
    confidence,
    limits: {
      // A small scale of ln strength is a large shape, so the ends change places.
      shape: [inverted(limits.scale[1]), inverted(limits.scale[0])],
      scale: [raised(limits.location[0]), raised(limits.location[1])],
    },
    quantiles,
    reliability,
  };
}

/** The estimates of `fitWeibull` with their standard errors, without the limits, which take longer. */
export function estimateWeibull(sample: Sample): WeibullEstimates | NotEvaluated {
  const estimates = estimateLocationScale('estimateWeibull', weibullModel, sample);
  return isNotEvaluated(estimates) ? estimates : weibullFrom(estimates);
}

/** The log-likelihood of a sample under one given Weibull distribution; always finite to ask, fitted or not. */
export function weibullLogLikelihood(sample: Sample, { shape, scale }: WeibullParameters): number {
  requirePositive('weibullLogLikelihood', { shape, scale });
  return logLikelihoodAt('weibullLogLikelihood', weibullModel, sample, {
    location: Math.log(scale),
    scale: 1 / shape,
  });
}

function weibullFrom(estimates: LocationScaleEstimates): WeibullEstimates {
  const { n, failures, location, scale, logLikelihood, aic, standardErrors, covariance } = estimates;
  const shape = 1 / scale;
  const strength = Math.exp(location);
  return {
    method: 'Weibull maximum likelihood',
    n,
    failures,
    shape,
    scale: strength,
    logLikelihood,
    aic,
    standardErrors: {
      shape: shape * standardErrors.logScale,
      scale: strength * standardErrors.location,
      logShape: standardErrors.logScale,
      logScale: standardErrors.location,
    },
    covariance: { logScaleLogShape: -covariance.locationLogScale },
  };
}

function inverted(limit: Limit): Limit {
  return isNotEvaluated(limit) ? limit : 1 / limit;
}

function raised(limit: Limit): Limit {
  if (isNotEvaluated(limit)) return limit;
  const strength = Math.exp(limit);
  if (strength > 0 && Number.isFinite(strength)) return strength;
  return notEvaluated(
    `it lies beyond every strength a number can hold (its logarithm is ${limit})`,
    'more specimens break, or strengths scatter less',
  );
}

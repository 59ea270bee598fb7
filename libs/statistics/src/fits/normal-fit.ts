import { isNotEvaluated, type NotEvaluated, type Sample } from '@breakbook/lab';
import { requireFinite, requirePositive } from '../requirements.js';
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
import { normalModel } from './strength-model.js';

/** Mean and standard deviation of a normal distribution, in the unit of the strength. */
export interface NormalParameters {
  mean: number;
  sd: number;
}

export interface NormalEstimates extends NormalParameters {
  method: 'normal maximum likelihood';
  n: number;
  failures: number;
  logLikelihood: number;
  /** 4 - 2 ln L: two parameters. */
  aic: number;
  standardErrors: { mean: number; sd: number; logSd: number };
  covariance: { meanLogSd: number };
}

export interface NormalFit extends NormalEstimates {
  /** Two-sided for `limits`, one-sided for `lower`. */
  confidence: number;
  limits: { mean: [Limit, Limit]; sd: [Limit, Limit] };
  quantiles: QuantileEstimate[];
  reliability: ReliabilityEstimate[];
}

/**
 * Which normal distribution explains these strengths best, and how surely? Maximum likelihood, with
 *
 *     ln L = sum over exact of ln (phi(z) / sd) + at least of ln (1 - Phi(z)) + at most of ln Phi(z)
 *          + intervals of ln (Phi(z of b) - Phi(z of a)),     z = (x - mean) / sd
 *
 * Standard errors from the observed information; limits and `lower` by profile likelihood; `waldLimits` mean -+ score
 * standard errors. The standard deviation is that of maximum likelihood: for a complete sample its divisor is n, not
 * n - 1. Strengths in any one unit.
 *
 * Assumes specimens independent and drawn at random, and that what ended a test early had nothing to do with how much
 * more the specimen would have held. Profile limits are too bold in small samples and no basis for acceptance.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 5.1 and 5.3.
 */
export function fitNormal(sample: Sample, options: FitOptions = {}): NormalFit | NotEvaluated {
  const fit = fitLocationScale('fitNormal', normalModel, sample, options);
  if (isNotEvaluated(fit)) return fit;
  const { confidence, limits, quantiles, reliability } = fit;
  return {
    ...normalFrom(fit),
    confidence,
    limits: { mean: limits.location, sd: limits.scale },
    quantiles,
    reliability,
  };
}

/** The estimates of `fitNormal` with their standard errors, without the limits, which take longer. */
export function estimateNormal(sample: Sample): NormalEstimates | NotEvaluated {
  const estimates = estimateLocationScale('estimateNormal', normalModel, sample);
  return isNotEvaluated(estimates) ? estimates : normalFrom(estimates);
}

/** The log-likelihood of a sample under one given normal distribution; always finite to ask, fitted or not. */
export function normalLogLikelihood(sample: Sample, { mean, sd }: NormalParameters): number {
  requireFinite('normalLogLikelihood', { mean });
  requirePositive('normalLogLikelihood', { sd });
  return logLikelihoodAt('normalLogLikelihood', normalModel, sample, { location: mean, scale: sd });
}

function normalFrom(estimates: LocationScaleEstimates): NormalEstimates {
  const { n, failures, location, scale, logLikelihood, aic, standardErrors, covariance } = estimates;
  return {
    method: 'normal maximum likelihood',
    n,
    failures,
    mean: location,
    sd: scale,
    logLikelihood,
    aic,
    standardErrors: { mean: standardErrors.location, sd: standardErrors.scale, logSd: standardErrors.logScale },
    covariance: { meanLogSd: covariance.locationLogScale },
  };
}

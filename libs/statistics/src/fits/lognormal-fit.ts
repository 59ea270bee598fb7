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
import { lognormalModel } from './strength-model.js';

/** Mean and standard deviation of the natural logarithm of strength, no unit. */
export interface LognormalParameters {
  logMean: number;
  logSd: number;
}

export interface LognormalEstimates extends LognormalParameters {
  method: 'lognormal maximum likelihood';
  n: number;
  failures: number;
  logLikelihood: number;
  /** 4 - 2 ln L: two parameters. */
  aic: number;
  /** `lnLogSd` is that of the natural logarithm of logSd. */
  standardErrors: { logMean: number; logSd: number; lnLogSd: number };
  covariance: { logMeanLnLogSd: number };
}

export interface LognormalFit extends LognormalEstimates {
  /** Two-sided for `limits`, one-sided for `lower`. */
  confidence: number;
  limits: { logMean: [Limit, Limit]; logSd: [Limit, Limit] };
  quantiles: QuantileEstimate[];
  reliability: ReliabilityEstimate[];
}

/**
 * Which lognormal distribution explains these strengths best, and how surely? The normal fit of ln strength by maximum
 * likelihood, its log-likelihood that of the strengths themselves:
 *
 *     ln L = sum over exact of ln (phi(z) / (logSd x)) + at least of ln (1 - Phi(z)) + at most of ln Phi(z)
 *          + intervals of ln (Phi(z of b) - Phi(z of a)),     z = (ln x - logMean) / logSd
 *
 * Standard errors from the observed information; limits and `lower` by profile likelihood; `waldLimits` on the
 * logarithmic scale. logSd is that of maximum likelihood: for a complete sample its divisor is n, not n - 1. Strengths in
 * any one unit, all above 0; quantiles come back in that unit.
 *
 * Assumes specimens independent and drawn at random, and that what ended a test early had nothing to do with how much
 * more the specimen would have held. Profile limits are too bold in small samples and no basis for acceptance.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 5.1 and 5.3.
 */
export function fitLognormal(sample: Sample, options: FitOptions = {}): LognormalFit | NotEvaluated {
  const fit = fitLocationScale('fitLognormal', lognormalModel, sample, options);
  if (isNotEvaluated(fit)) return fit;
  const { confidence, limits, quantiles, reliability } = fit;
  return {
    ...lognormalFrom(fit),
    confidence,
    limits: { logMean: limits.location, logSd: limits.scale },
    quantiles,
    reliability,
  };
}

/** The estimates of `fitLognormal` with their standard errors, without the limits, which take longer. */
export function estimateLognormal(sample: Sample): LognormalEstimates | NotEvaluated {
  const estimates = estimateLocationScale('estimateLognormal', lognormalModel, sample);
  return isNotEvaluated(estimates) ? estimates : lognormalFrom(estimates);
}

/** The log-likelihood of a sample under one given lognormal distribution; always finite to ask, fitted or not. */
export function lognormalLogLikelihood(sample: Sample, { logMean, logSd }: LognormalParameters): number {
  requireFinite('lognormalLogLikelihood', { logMean });
  requirePositive('lognormalLogLikelihood', { logSd });
  return logLikelihoodAt('lognormalLogLikelihood', lognormalModel, sample, { location: logMean, scale: logSd });
}

function lognormalFrom(estimates: LocationScaleEstimates): LognormalEstimates {
  const { n, failures, location, scale, logLikelihood, aic, standardErrors, covariance } = estimates;
  return {
    method: 'lognormal maximum likelihood',
    n,
    failures,
    logMean: location,
    logSd: scale,
    logLikelihood,
    aic,
    standardErrors: {
      logMean: standardErrors.location,
      logSd: standardErrors.scale,
      lnLogSd: standardErrors.logScale,
    },
    covariance: { logMeanLnLogSd: covariance.locationLogScale },
  };
}

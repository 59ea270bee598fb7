import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import { settled } from '../numerics/no-convergence.js';
import { requireFinite, requireFraction, requirePositive } from '../requirements.js';
import { Likelihood } from './likelihood.js';
import { type Maximum, maximumOf, whyNoMaximum } from './maximum.js';
import type { Observations } from './observations.js';
import { profileLimit, twoSidedScores } from './profile.js';
import { covarianceAt, type Quantity, waldOf } from './quantity.js';
import { observationsFor, type StrengthModel } from './strength-model.js';

/** A limit that the data put on a number, or why they put none. */
export type Limit = number | NotEvaluated;

/** The strength below which a share of the population lies, in the unit of the sample. */
export interface QuantileEstimate {
  /** The share that fails below `value`. */
  fraction: number;
  value: number;
  limits: [Limit, Limit];
  lower: Limit;
  /** From the standard error, on the scale on which the distribution is of location-scale form. */
  waldLimits: [Limit, Limit];
}

/** The share of the population that holds more than a strength. */
export interface ReliabilityEstimate {
  at: number;
  value: number;
  limits: [Limit, Limit];
  lower: Limit;
}

export interface FitOptions {
  /** Two-sided for limits, one-sided for `lower`; 0.95 if left out. */
  confidence?: number;
  /** Shares failing at which the strength is asked for. */
  quantiles?: readonly number[];
  /** Strengths at which the share surviving is asked for. */
  at?: readonly number[];
}

/** Location and scale of strength, or of its logarithm, that make a sample likeliest. */
export interface LocationScaleEstimates {
  n: number;
  failures: number;
  location: number;
  scale: number;
  /** Of strengths in the unit of the sample. */
  logLikelihood: number;
  /** 4 - 2 ln L: two parameters. */
  aic: number;
  standardErrors: { location: number; scale: number; logScale: number };
  covariance: { locationLogScale: number };
}

export interface LocationScaleFit extends LocationScaleEstimates {
  confidence: number;
  limits: { location: [Limit, Limit]; scale: [Limit, Limit] };
  quantiles: QuantileEstimate[];
  reliability: ReliabilityEstimate[];
}

/** A likelihood with the place where it is largest. */
export interface Fitted {
  likelihood: Likelihood;
  maximum: Maximum;
}

/**
 * Which distribution of one location-scale form explains these strengths best, and how surely? Maximum likelihood;
 * standard errors from the observed information; limits and `lower` by profile likelihood.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., chapter 5.
 */
export function fitLocationScale(
  caller: string,
  model: StrengthModel,
  sample: Sample,
  options: FitOptions = {},
): LocationScaleFit | NotEvaluated {
  const { confidence = 0.95, quantiles = [], at = [] } = options;
  requireFraction(caller, { confidence });
  for (const fraction of quantiles) requireFraction(caller, { fraction });
  for (const strength of at) (model.logarithmic ? requirePositive : requireFinite)(caller, { at: strength });

  const fitted = maximumFor(caller, model, sample);
  if (isNotEvaluated(fitted)) return fitted;
  const { likelihood, maximum } = fitted;
  const { family } = model;
  const beyond = [0, ...quantiles.map(family.quantile)]
    .map((z) => strengthFrom(waldOf({ kind: 'value', z }, maximum).estimate, likelihood, model))
    .find(isNotEvaluated);
  if (beyond) return beyond;

  const scores = twoSidedScores(confidence);
  const [lowScore, highScore] = scores;
  const lowerScore = normalQuantile(1 - confidence);
  const limit = (quantity: Quantity, score: number) => profileLimit(quantity, likelihood, maximum, score);
  const strengthLimit = (z: number, score: number) =>
    strengthFrom(limit({ kind: 'value', z }, score), likelihood, model);
  const shareLimit = (y: number, score: number) => mapped(limit({ kind: 'score', y }, score), family.share);
  const scaleLimit = (score: number) =>
    mapped(limit({ kind: 'logSlope' }, score), (logSlope) => likelihood.spread / Math.exp(logSlope));

  return {
    ...estimatesAt(fitted, model),
    confidence,
    limits: {
      location: pair(scores, (score) => mapped(limit({ kind: 'value', z: 0 }, score), (y) => backFrom(y, likelihood))),
      // A steep slope is a small scale, so the ends change places.
      scale: [scaleLimit(highScore), scaleLimit(lowScore)],
    },
    quantiles: quantiles.map((fraction) => {
      const z = family.quantile(fraction);
      const { estimate, standardError } = waldOf({ kind: 'value', z }, maximum);
      return {
        fraction,
        value: strengthOf(estimate, likelihood, model),
        limits: pair(scores, (score) => strengthLimit(z, score)),
        lower: strengthLimit(z, lowerScore),
        waldLimits: pair(scores, (score) => strengthFrom(estimate + score * standardError, likelihood, model)),
      };
    }),
    reliability: at.map((strength) => {
      const y = ((model.logarithmic ? Math.log(strength) : strength) - likelihood.centre) / likelihood.spread;
      return {
        at: strength,
        value: family.share(maximum.intercept + maximum.slope * y),
        // The share surviving falls as the standardised value rises, so the ends change places.
        limits: [shareLimit(y, highScore), shareLimit(y, lowScore)],
        lower: shareLimit(y, -lowerScore),
      };
    }),
  };
}

/** The estimates of `fitLocationScale` with their standard errors, without the limits, which take longer. */
export function estimateLocationScale(
  caller: string,
  model: StrengthModel,
  sample: Sample,
): LocationScaleEstimates | NotEvaluated {
  const fitted = maximumFor(caller, model, sample);
  return isNotEvaluated(fitted) ? fitted : estimatesAt(fitted, model);
}

/** The log-likelihood of a sample under one given location and scale; always finite to ask, fitted or not. */
export function logLikelihoodAt(
  caller: string,
  model: StrengthModel,
  sample: Sample,
  { location, scale }: { location: number; scale: number },
): number {
  const likelihood = new Likelihood(model.family, observationsFor(caller, model, sample));
  const { intercept, slope } = likelihood.interceptAndSlope(location, scale);
  return logLikelihoodOf(likelihood.at(intercept, slope).value, likelihood.observations, model);
}

/** The likelihood of a sample at its maximum, or why there is none. */
export function maximumFor(caller: string, model: StrengthModel, sample: Sample): Fitted | NotEvaluated {
  return maximumOfObservations(model, observationsFor(caller, model, sample));
}

/** The same for a sample that has been sorted out already. */
export function maximumOfObservations(model: StrengthModel, observations: Observations): Fitted | NotEvaluated {
  const impossible = whyNoMaximum(observations);
  if (impossible) return impossible;
  const likelihood = new Likelihood(model.family, observations);
  return settled(
    () => ({ likelihood, maximum: maximumOf(likelihood) }),
    () =>
      notEvaluated(
        'the search for the largest likelihood did not settle: the specimens are too nearly alike',
        'strengths are known exactly, or their intervals overlap less closely',
      ),
  );
}

/** A strength in the unit of the sample, from a value on the standardised scale of the likelihood. */
export function strengthFrom(value: Limit, likelihood: Likelihood, model: StrengthModel): Limit {
  if (isNotEvaluated(value)) return value;
  const strength = strengthOf(value, likelihood, model);
  if (Number.isFinite(strength) && !(model.logarithmic && strength === 0)) return strength;
  return notEvaluated(
    `it lies beyond every strength a number can hold (its logarithm is ${backFrom(value, likelihood)})`,
    'more specimens break, or strengths scatter less',
  );
}

function estimatesAt({ likelihood, maximum }: Fitted, model: StrengthModel): LocationScaleEstimates {
  const { n, failures } = likelihood.observations;
  const { location, scale } = likelihood.locationAndScale(maximum.intercept, maximum.slope);
  const logLikelihood = logLikelihoodOf(maximum.at.value, likelihood.observations, model);
  const { standardError: logScale } = waldOf({ kind: 'logSlope' }, maximum);
  const centre = waldOf({ kind: 'value', z: 0 }, maximum);
  return {
    n,
    failures,
    location,
    scale,
    logLikelihood,
    aic: 4 - 2 * logLikelihood,
    standardErrors: { location: likelihood.spread * centre.standardError, scale: scale * logScale, logScale },
    covariance: { locationLogScale: -likelihood.spread * covarianceOfLocationAndLogSlope(maximum) },
  };
}

/** Covariance of -intercept / slope with ln slope, from the curvature at the maximum. */
function covarianceOfLocationAndLogSlope(maximum: Maximum): number {
  const { intercept, slope } = maximum;
  const covariance = covarianceAt(maximum);
  return (-covariance.both / slope + (intercept / slope ** 2) * covariance.slope) / slope;
}

/** The density of a strength is that of its logarithm divided by the strength. */
function logLikelihoodOf(value: number, { exact }: Observations, { logarithmic }: StrengthModel): number {
  if (!logarithmic) return value;
  let sum = 0;
  for (const logarithm of exact) sum += logarithm;
  return value - sum;
}

function strengthOf(value: number, likelihood: Likelihood, { logarithmic }: StrengthModel): number {
  const back = backFrom(value, likelihood);
  return logarithmic ? Math.exp(back) : back;
}

function backFrom(value: number, { centre, spread }: Likelihood): number {
  return centre + spread * value;
}

function mapped(limit: Limit, to: (value: number) => number): Limit {
  return isNotEvaluated(limit) ? limit : to(limit);
}

function pair(scores: [number, number], at: (score: number) => Limit): [Limit, Limit] {
  return [at(scores[0]), at(scores[1])];
}

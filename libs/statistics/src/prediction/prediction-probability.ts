import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalUpperTail } from '../distributions/normal-tail.js';
import type { WeibullParameters } from '../distributions/weibull.js';
import { requireCount, requireFinite, requirePositive } from '../requirements.js';
import { type FutureQuestion, normalValues, sampleOf } from './future.js';
import { minimumOfFuture } from './normal-minimum.js';
import { chanceAllAbove } from './order-statistic-prediction.js';
import { conditionalFit } from './prediction-bound.js';
import { weibullMinimum } from './weibull-minimum.js';

/** A population known beforehand: Weibull, normal, or lognormal by mean and standard deviation of ln strength. */
export type KnownPopulation = WeibullParameters | { mean: number; sd: number } | { logMean: number; logSd: number };

export interface PredictionProbability {
  method: 'prediction probability';
  m: number;
  /** That the smallest of m future units lies below x, a fraction. */
  probability: number;
}

/**
 * How likely is it that the smallest of m future units lies below x, judged by the strengths of units of the same
 * population? The chance that `predictionBound` for all m would be x: normal and lognormal by `minimumOfFuture`, Weibull by
 * `weibullMinimum`. The uncertainty of the estimates is in it, so that it is larger than the chance that fitted parameters
 * alone would give.
 *
 * Assumes past and future units drawn at random from one population. Smallest n: 2 different strengths.
 *
 * Source: Hahn and Meeker (1991), Statistical Intervals, section 4.8; Lawless (1973), Technometrics 15, 857-865.
 */
export function predictionProbability(question: FutureQuestion & { x: number }): PredictionProbability | NotEvaluated {
  const { distribution, basis, m, x } = question;
  requireCount('predictionProbability', { m }, 1);
  requireFinite('predictionProbability', { x });
  if (distribution === 'distribution-free')
    return notEvaluated(
      'without a distribution only the chance to lie below one of the strengths themselves is known',
      'n, m and the rank of that strength are given, or the plan declares a distribution',
    );
  // No strength lies at 0 or below where its logarithm exists.
  if (distribution !== 'normal' && x <= 0) return answer(m, 0);
  if (distribution === 'weibull') {
    const sample = sampleOf(basis, 'weibull');
    if (isNotEvaluated(sample)) return sample;
    const fit = conditionalFit(sample);
    if (isNotEvaluated(fit)) return fit;
    const z = fit.shape * Math.log(x / fit.scale);
    return answer(m, weibullMinimum(fit.ancillary, m, z)(z).below);
  }
  const values = normalValues('predictionProbability', question);
  if (isNotEvaluated(values)) return values;
  const at = distribution === 'lognormal' ? Math.log(x) : x;
  return answer(m, minimumOfFuture(values.n, m)((values.mean - at) / values.sd).below);
}

/**
 * The same for the rank-th smallest of n units in place of x, whatever the distribution: one less the chance that all m lie
 * above it (see `chanceAllAbove`). For rank 1 it is m / (n + m).
 *
 * Source: Hahn and Meeker (1991), Statistical Intervals, section 5.4.
 */
export function predictionProbabilityByRank(n: number, m: number, rank: number): PredictionProbability {
  requireCount('predictionProbabilityByRank', { n, m, rank }, 1);
  if (rank > n) throw new RangeError(`predictionProbabilityByRank: there is no number ${rank} among ${n} units.`);
  return answer(m, 1 - chanceAllAbove(n, m, rank));
}

/**
 * The same for a population known beforehand:
 *
 *     probability = 1 - S(x)^m
 *
 * with S the share that exceeds x. Of Weibull strengths the smallest is Weibull again, with scale m^(-1 / shape) times theirs.
 *
 * Source: Weibull (1951), J. Appl. Mech. 18, 293-297 (weakest link).
 */
export function predictionProbabilityKnown(known: KnownPopulation, m: number, x: number): PredictionProbability {
  requireCount('predictionProbabilityKnown', { m }, 1);
  requireFinite('predictionProbabilityKnown', { x });
  return answer(m, -Math.expm1(m * logShareAbove(known, x)));
}

function logShareAbove(known: KnownPopulation, x: number): number {
  if ('shape' in known) {
    requirePositive('predictionProbabilityKnown', { shape: known.shape, scale: known.scale });
    return x <= 0 ? 0 : -((x / known.scale) ** known.shape);
  }
  const [at, mean, sd] = 'logMean' in known ? [Math.log(x), known.logMean, known.logSd] : [x, known.mean, known.sd];
  requirePositive('predictionProbabilityKnown', { sd });
  if ('logMean' in known && x <= 0) return 0;
  const out = new Float64Array(3);
  normalUpperTail((at - mean) / sd, out);
  return out[0] as number;
}

function answer(m: number, probability: number): PredictionProbability {
  return { method: 'prediction probability', m, probability: Math.min(1, Math.max(0, probability)) };
}

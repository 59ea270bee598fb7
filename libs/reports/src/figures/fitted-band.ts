import type { FittedDistribution, PaperDistribution } from '@breakbook/figures';
import { type Criterion, isNotEvaluated, type NotEvaluated, type Sample } from '@breakbook/lab';
import { fitLognormal, fitNormal, fitWeibull } from '@breakbook/statistics';

/** The distribution that the first bound of a plan line is declared with; Weibull's where none is, or none is assumed. */
export function declaredDistribution(criteria: readonly Criterion[]): PaperDistribution {
  for (const criterion of criteria)
    if (criterion.kind === 'tolerance bound' && criterion.distribution !== 'distribution-free')
      return criterion.distribution;
  return 'weibull';
}

/** A fitted distribution with the confidence limits of its values at some fractions. */
export interface FittedBand {
  fit: FittedDistribution;
  limits: { fraction: number; lower: number; upper: number }[];
}

/** Where a band is drawn: closer together where it bends. */
const FRACTIONS = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.95, 0.98, 0.99, 0.995];

/**
 * The likeliest distribution of this kind, with two-sided limits of its values by profile likelihood (Lawless 2003, chapter 5).
 * A fraction whose value has no limit is left out of the band.
 */
export function fittedBand(
  distribution: PaperDistribution,
  sample: Sample,
  confidence: number,
): FittedBand | NotEvaluated {
  const options = { confidence, quantiles: FRACTIONS };
  switch (distribution) {
    case 'weibull': {
      const fit = fitWeibull(sample, options);
      if (isNotEvaluated(fit)) return fit;
      return { fit: { distribution, shape: fit.shape, scale: fit.scale }, limits: limitsOf(fit.quantiles) };
    }
    case 'normal': {
      const fit = fitNormal(sample, options);
      if (isNotEvaluated(fit)) return fit;
      return { fit: { distribution, mean: fit.mean, sd: fit.sd }, limits: limitsOf(fit.quantiles) };
    }
    case 'lognormal': {
      const fit = fitLognormal(sample, options);
      if (isNotEvaluated(fit)) return fit;
      const line: FittedDistribution = { distribution, median: Math.exp(fit.logMean), logSd: fit.logSd };
      return { fit: line, limits: limitsOf(fit.quantiles) };
    }
  }
}

function limitsOf(
  quantiles: readonly { fraction: number; limits: [number | NotEvaluated, number | NotEvaluated] }[],
): FittedBand['limits'] {
  return quantiles.flatMap(({ fraction, limits: [lower, upper] }) =>
    isNotEvaluated(lower) || isNotEvaluated(upper) ? [] : [{ fraction, lower, upper }],
  );
}

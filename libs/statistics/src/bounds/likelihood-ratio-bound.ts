import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { fitWeibull } from '../fits/weibull-fit.js';
import type { Aim, Found } from './lower-tolerance-bound.js';

/**
 * The lower tolerance bound of a Weibull population by profile likelihood: the lower end of the
 * two-sided interval of confidence 2 C - 1 on the quantile. It serves any censoring and is for
 * comparison only: in small samples it lies too high (nominal 95 % covers about 87 to 91 % at 5 to
 * 12 specimens), so that no acceptance rests on it.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., section 5.1.
 */
export function likelihoodRatioWeibullBound({ sample, coverage, confidence }: Aim): Found | NotEvaluated {
  const fit = fitWeibull(sample, { confidence, quantiles: [1 - coverage] });
  if (isNotEvaluated(fit)) return fit;
  const [quantile] = fit.quantiles;
  if (quantile === undefined) throw new Error('the fit gave no quantile');
  if (isNotEvaluated(quantile.lower)) return quantile.lower;
  return {
    bound: quantile.lower,
    estimate: quantile.value,
    achievedConfidence: notEvaluated(
      'a likelihood-ratio bound reaches its confidence in large samples only, and falls short of it in small ones',
      'the technique is conditional and the sample complete or ended at its last break',
    ),
    forAcceptance: false,
    n: fit.n,
    failures: fit.failures,
    assumptions: [
      'strength follows a two-parameter Weibull distribution',
      'what ended a test early had nothing to do with how much more the specimen would have held',
      'for comparison only: no acceptance rests on this bound',
    ],
  };
}

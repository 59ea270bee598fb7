import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import { type Fitted, maximumFor, strengthFrom } from '../fits/location-scale-fit.js';
import { waldOf } from '../fits/quantity.js';
import { type StrengthModel, strengthModels } from '../fits/strength-model.js';
import { ASSUMED_OF } from './assumed.js';
import type { Aim, Found } from './lower-tolerance-bound.js';
import { pivotalLowerLimit } from './pivotal-limit.js';
import { conditionalPivot } from './weibull-conditional.js';
import { whyNotConditional } from './why-not-conditional.js';

/**
 * The lower tolerance bound by the conditional technique: the value that the pivotal distribution of the quantile, given
 * how the specimens lie relative to each other, puts at this confidence. For a Weibull population
 *
 *     bound = scale^ exp(-Z / shape^)
 *
 * with ^ the maximum-likelihood values and Z the point of the pivotal quantity (see `conditionalPivot`); for a normal one,
 * or one whose logarithm is normal, by the same distribution as a double integral (see `pivotalQuantile`). Exact for
 * complete samples and for tests that ended at the r-th break; at least 2 specimens broken at different strengths. For a
 * complete normal sample it is the bound by noncentral t.
 *
 * Source: Lawless (1975), Technometrics 17, 255-261; Lawless (1978), Technometrics 20, 355-368; Lawless (2003), Statistical
 * Models and Methods for Lifetime Data, 2nd ed., appendix E.
 */
export function conditionalBound(
  { sample, coverage, confidence }: Aim,
  distribution: StrengthModel['distribution'],
): Found | NotEvaluated {
  const unserved = whyNotConditional(sample);
  if (unserved) return unserved;
  const model = strengthModels[distribution];
  const fitted = maximumFor('lowerToleranceBound', model, sample);
  if (isNotEvaluated(fitted)) return fitted;

  const z = model.family.quantile(1 - coverage);
  const limit =
    distribution === 'weibull' ? weibullLimit(fitted, coverage, confidence) : pivotalLowerLimit(fitted, z, confidence);
  const bound = strengthFrom(limit, fitted.likelihood, model);
  if (isNotEvaluated(bound)) return bound;
  const estimate = strengthFrom(waldOf({ kind: 'value', z }, fitted.maximum).estimate, fitted.likelihood, model);
  if (isNotEvaluated(estimate)) return estimate;
  const { n, failures, atLeast } = fitted.likelihood.observations;
  return {
    bound,
    estimate,
    achievedConfidence: confidence,
    n,
    failures,
    assumptions: [
      ASSUMED_OF[distribution],
      ...(atLeast.length > 0 ? ['the test was planned to end at the last break counted here'] : []),
    ],
  };
}

/** The limit of ln strength, on the standardised scale of the likelihood. */
function weibullLimit({ likelihood, maximum }: Fitted, coverage: number, confidence: number): number {
  const { centre, spread, observations } = likelihood;
  const { intercept, slope } = maximum;
  const standardised = (y: number) => intercept + slope * ((y - centre) / spread);
  const pivot = conditionalPivot(
    { broke: Array.from(observations.exact, standardised), held: Array.from(observations.atLeast, standardised) },
    coverage,
    confidence,
  );
  return (-pivot - intercept) / slope;
}

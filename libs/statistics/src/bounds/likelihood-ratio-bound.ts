import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import { maximumFor, strengthFrom } from '../fits/location-scale-fit.js';
import { profileLimit } from '../fits/profile.js';
import { type Quantity, waldOf } from '../fits/quantity.js';
import { type StrengthModel, strengthModels } from '../fits/strength-model.js';
import { ASSUMED_OF, ENDED_FAIRLY } from './assumed.js';
import type { Aim, Found } from './lower-tolerance-bound.js';

/**
 * The lower tolerance bound by profile likelihood: the lower end of the two-sided interval of
 * confidence 2 C - 1 on the quantile. It serves any censoring and is for comparison only: in small
 * samples it lies too high (nominal 95 % covers about 87 to 91 % at 5 to 12 specimens), so that no
 * acceptance rests on it.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., section 5.1.
 */
export function likelihoodRatioBound(
  { sample, coverage, confidence }: Aim,
  distribution: StrengthModel['distribution'],
): Found | NotEvaluated {
  const model = strengthModels[distribution];
  const fitted = maximumFor('lowerToleranceBound', model, sample);
  if (isNotEvaluated(fitted)) return fitted;
  const { likelihood, maximum } = fitted;
  const quantile: Quantity = { kind: 'value', z: model.family.quantile(1 - coverage) };
  const estimate = strengthFrom(waldOf(quantile, maximum).estimate, likelihood, model);
  if (isNotEvaluated(estimate)) return estimate;
  const limit = profileLimit(quantile, likelihood, maximum, normalQuantile(1 - confidence));
  const bound = strengthFrom(limit, likelihood, model);
  if (isNotEvaluated(bound)) return bound;
  return {
    bound,
    estimate,
    achievedConfidence: notEvaluated(
      'a likelihood-ratio bound reaches its confidence in large samples only, and falls short of it in small ones',
      'the technique is left out, or one on which acceptance may rest',
    ),
    forAcceptance: false,
    n: likelihood.observations.n,
    failures: likelihood.observations.failures,
    assumptions: [ASSUMED_OF[distribution], ENDED_FAIRLY, 'for comparison only: no acceptance rests on this bound'],
  };
}

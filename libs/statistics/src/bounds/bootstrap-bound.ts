import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { maximumFor, maximumOfObservations, strengthFrom } from '../fits/location-scale-fit.js';
import { waldOf } from '../fits/quantity.js';
import { type StrengthModel, strengthModels } from '../fits/strength-model.js';
import { seededGenerator } from '../random/generator.js';
import { simulatedTest } from '../random/simulated-test.js';
import { ASSUMED_OF, ENDED_FAIRLY } from './assumed.js';
import type { Aim, Found } from './lower-tolerance-bound.js';
import { lowerPercentile } from './percentile.js';

/** Simulated tests if none are asked for. */
const USUAL_REPLICATES = 4000;

/**
 * The lower tolerance bound by the parametric bootstrap: the point below which a share 1 - confidence of the quantiles
 * lies that are fitted to simulated tests like this one (see `simulatedTest`). For comparison only: like the
 * likelihood-ratio bound it is too bold in small samples, so that no acceptance rests on it.
 *
 * Source: Efron and Tibshirani (1993), An Introduction to the Bootstrap, sections 6.5 and 13.3.
 */
export function bootstrapBound(
  { sample, coverage, confidence, seed = 1, replicates = USUAL_REPLICATES }: Aim,
  distribution: StrengthModel['distribution'],
): Found | NotEvaluated {
  const model = strengthModels[distribution];
  const fitted = maximumFor('lowerToleranceBound', model, sample);
  if (isNotEvaluated(fitted)) return fitted;
  const { likelihood, maximum } = fitted;
  const z = model.family.quantile(1 - coverage);
  const estimate = strengthFrom(waldOf({ kind: 'value', z }, maximum).estimate, likelihood, model);
  if (isNotEvaluated(estimate)) return estimate;

  const population = { family: model.family, ...likelihood.locationAndScale(maximum.intercept, maximum.slope) };
  const test = simulatedTest(likelihood.observations);
  const chance = seededGenerator(seed);
  const quantiles = new Float64Array(replicates);
  let [found, tried] = [0, 0];
  while (found < replicates) {
    if (tried++ >= 10 * replicates)
      return notEvaluated(
        'tests like this one seldom have a fit, so that little is learned from them',
        'more specimens are broken',
      );
    const drawn = maximumOfObservations(model, test.draw(population, chance));
    if (isNotEvaluated(drawn)) continue;
    const { location, scale } = drawn.likelihood.locationAndScale(drawn.maximum.intercept, drawn.maximum.slope);
    quantiles[found++] = location + scale * z;
  }
  const { value, error } = lowerPercentile(quantiles, 1 - confidence);
  const back = model.logarithmic ? Math.exp : (y: number) => y;
  return {
    bound: back(value),
    estimate,
    achievedConfidence: notEvaluated(
      'a bootstrap bound reaches its confidence in large samples only, and falls short of it in small ones',
      'the technique is left out, or one on which acceptance may rest',
    ),
    forAcceptance: false,
    simulationError: model.logarithmic ? back(value) * error : error,
    seed,
    replicates,
    shareNotEvaluated: 1 - replicates / tried,
    n: likelihood.observations.n,
    failures: likelihood.observations.failures,
    assumptions: [
      ASSUMED_OF[distribution],
      ENDED_FAIRLY,
      `simulated tests: ${test.described}`,
      'for comparison only: no acceptance rests on this bound',
    ],
  };
}

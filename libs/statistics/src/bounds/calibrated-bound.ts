import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { type Fitted, maximumFor, maximumOfObservations, strengthFrom } from '../fits/location-scale-fit.js';
import { waldOf } from '../fits/quantity.js';
import { type StrengthModel, strengthModels } from '../fits/strength-model.js';
import { seededGenerator } from '../random/generator.js';
import { type SimulatedTest, simulatedTest } from '../random/simulated-test.js';
import { ASSUMED_OF, ENDED_FAIRLY } from './assumed.js';
import type { Aim, Found } from './lower-tolerance-bound.js';
import { pivotalLowerLimit } from './pivotal-limit.js';
import { COARSE, pivotalQuantile } from './pivotal-quantile.js';

/** Simulated tests if none are asked for: at 0.95 a standard error of 0.0034. */
const USUAL_REPLICATES = 4000;

/**
 * The lower tolerance bound of a sample with any censoring: the value below which the generalised pivotal distribution of
 * the quantile has no more than 1 - confidence (see `pivotalQuantile`), its coverage found by seeded simulation of tests
 * like this one (see `simulatedTest`) from the fitted population.
 *
 * Where the simulated coverage falls short of the confidence by more than its standard error, the bound is taken at a
 * higher level: the one that held often enough, two standard errors added, and that level is simulated afresh. Where it
 * still falls short there is no bound. The level is never lowered, although the bound is often conservative: a level
 * lowered to what one sample makes plausible covered as little as 0.79 at 20 specimens, four fifths of them survivors.
 *
 * Needs two strengths known exactly or within an interval. Assumes what `simulatedTest` assumes of how specimens are ended
 * early, and that the end had nothing to do with how much more the specimen would have held.
 *
 * Source: generalised pivotal quantities, Weerahandi (1993), J. Amer. Statist. Assoc. 88, 899-905; calibration of a level
 * by simulation, Loh (1987), J. Amer. Statist. Assoc. 82, 155-162.
 */
export function calibratedBound(
  { sample, coverage, confidence, seed = 1, replicates = USUAL_REPLICATES }: Aim,
  distribution: StrengthModel['distribution'],
): Found | NotEvaluated {
  const model = strengthModels[distribution];
  const fitted = maximumFor('lowerToleranceBound', model, sample);
  if (isNotEvaluated(fitted)) return fitted;
  const unserved = whyNotPivotal(fitted);
  if (unserved) return unserved;

  const z = model.family.quantile(1 - coverage);
  const test = simulatedTest(fitted.likelihood.observations);
  const calibration = calibrated({ fitted, model, z, test, confidence, seed, replicates });
  if (isNotEvaluated(calibration)) return calibration;
  const { level, reached } = calibration;
  const bound = strengthFrom(pivotalLowerLimit(fitted, z, level), fitted.likelihood, model);
  if (isNotEvaluated(bound)) return bound;
  const estimate = strengthFrom(waldOf({ kind: 'value', z }, fitted.maximum).estimate, fitted.likelihood, model);
  if (isNotEvaluated(estimate)) return estimate;
  const { n, failures } = fitted.likelihood.observations;
  return {
    bound,
    estimate,
    achievedConfidence: reached.share,
    simulationError: reached.error,
    seed,
    replicates,
    shareNotEvaluated: reached.boundless,
    ...(level === confidence ? {} : { level }),
    n,
    failures,
    assumptions: [
      ASSUMED_OF[distribution],
      ENDED_FAIRLY,
      `the confidence reached is that of simulated tests like this one from the fitted population: ${test.described}`,
    ],
  };
}

/** Why the pivotal distribution of a sample cannot be formed, if so. */
export function whyNotPivotal({ likelihood: { observations } }: Fitted): NotEvaluated | undefined {
  if (observations.exact.length + observations.lower.length >= 2) return undefined;
  return notEvaluated(
    'fewer than two strengths are known exactly or within an interval, which is too little to know the scatter by',
    'at least two specimens break at strengths known exactly or within an interval',
  );
}

interface Trial {
  fitted: Fitted;
  model: StrengthModel;
  z: number;
  test: SimulatedTest;
  confidence: number;
  seed: number;
  replicates: number;
}

/** How often the bound at one level held in simulated tests, of those that gave a bound. */
interface Reached {
  share: number;
  error: number;
  /** Share of the simulated tests that gave no bound. */
  boundless: number;
}

function calibrated(trial: Trial): { level: number; reached: Reached } | NotEvaluated {
  const { confidence, seed, replicates } = trial;
  const first = simulate(trial, seed);
  if (isNotEvaluated(first)) return first;
  const reached = reachedBy(first, confidence);
  if (reached.share >= confidence - reached.error) return { level: confidence, reached };

  const spare = 2 * Math.sqrt((confidence * (1 - confidence)) / replicates);
  const misses = Math.max(0, Math.floor(replicates * (1 - confidence - spare)));
  const level = 1 - (first.risks[misses] as number);
  const again = simulate(trial, seed + 1);
  if (isNotEvaluated(again)) return again;
  const reachedThen = reachedBy(again, level);
  if (level < 1 && reachedThen.share >= confidence - reachedThen.error) return { level, reached: reachedThen };
  return notEvaluated(
    `in simulated tests like this one the bound held ${percent(reached.share)} % of the time and not ${percent(confidence)} %`,
    'more specimens are broken, strengths are known more exactly, or a smaller confidence is asked for',
  );
}

interface Simulation {
  /** For each test that gave a bound: the pivotal probability that the quantile is smaller than it is; ascending. */
  risks: Float64Array;
  boundless: number;
}

/** Tests like this one from the fitted population. A bound at a level holds where the risk is at least one minus it. */
function simulate({ fitted, model, z, test, replicates }: Trial, seed: number): Simulation | NotEvaluated {
  const { location, scale } = fitted.likelihood.locationAndScale(fitted.maximum.intercept, fitted.maximum.slope);
  const population = { family: model.family, location, scale };
  const truth = location + scale * z;
  const chance = seededGenerator(seed);
  const risks = new Float64Array(replicates);
  let [found, tried] = [0, 0];
  while (found < replicates) {
    if (tried++ >= 10 * replicates)
      return notEvaluated(
        'tests like this one seldom give a bound, so that little can be said of how often it holds',
        'more specimens are broken',
      );
    const drawn = maximumOfObservations(model, test.draw(population, chance));
    if (isNotEvaluated(drawn) || whyNotPivotal(drawn)) continue;
    const { centre, spread } = drawn.likelihood;
    risks[found++] = pivotalQuantile(drawn, z, COARSE)((truth - centre) / spread).below;
  }
  return { risks: risks.sort(), boundless: 1 - replicates / tried };
}

function reachedBy({ risks, boundless }: Simulation, level: number): Reached {
  let missed = 0;
  while (missed < risks.length && (risks[missed] as number) < 1 - level) missed++;
  const share = 1 - missed / risks.length;
  // With none missed the share says that one more would have been the first.
  const spread = Math.max(missed, 1) / risks.length;
  return { share, error: Math.sqrt((spread * (1 - spread)) / risks.length), boundless };
}

function percent(share: number): string {
  return (100 * share).toFixed(1);
}

import { normalQuantile } from '../distributions/normal.js';
import { type Experiment, type Outcome, simulated } from './experiment.js';
import { anovaExperiments, basisExperiments } from './experiments/batches.js';
import { boldExperiments, wrongModelExperiments } from './experiments/comparison.js';
import { intervalExperiments, wholeAnswerExperiments } from './experiments/intervals.js';
import { parametricExperiments } from './experiments/parametric.js';
import {
  hansonKoopmansExperiments,
  knownShapeExperiments,
  orderStatisticExperiments,
} from './experiments/rank-bounds.js';

/** Every experiment of the study, in the order of its page. */
export function coverageExperiments(): Experiment[] {
  return [
    ...parametricExperiments(),
    ...intervalExperiments(),
    ...wholeAnswerExperiments(),
    ...orderStatisticExperiments(),
    ...hansonKoopmansExperiments(),
    ...knownShapeExperiments(),
    ...anovaExperiments(),
    ...basisExperiments(),
    ...wrongModelExperiments(),
    ...boldExperiments(),
  ];
}

/** Chance that one share or more of a study lies outside its bound by luck alone. */
export const FAMILY_RISK = 0.01;

/** A share that lies farther from what was promised than luck allows in a study of this size. */
export interface Breach {
  outcome: Outcome;
  confidence: number;
  held: number;
  /** Standard errors away. */
  score: number;
}

/**
 * Simulates experiments one after the other, each with its own seed, and says after each how far it is. The same seed,
 * experiments and number of samples give the same outcomes.
 */
export function coverageStudy(
  experiments: readonly Experiment[],
  {
    seed,
    replicates,
    onProgress = () => {},
  }: { seed: number; replicates: number; onProgress?: (done: number) => void },
): Outcome[] {
  return experiments.map((experiment, index) => {
    const outcome = simulated(experiment, seed + index, replicates);
    onProgress(index + 1);
    return outcome;
  });
}

/**
 * The shares that break what was promised of them: exact ones on either side, conservative ones below, each farther than
 * the normal score that luck exceeds once in a hundred whole studies (Bonferroni).
 */
export function breaches(outcomes: readonly Outcome[]): Breach[] {
  const judged = outcomes.filter(({ experiment }) => experiment.promise !== 'told');
  const limit = familyScore(outcomes);
  return judged.flatMap((outcome) =>
    outcome.shares
      .map(({ confidence, held, error }) => ({ outcome, confidence, held, score: (held - confidence) / error }))
      .filter(({ score }) => (outcome.experiment.promise === 'exact' ? Math.abs(score) > limit : score < -limit)),
  );
}

/** The score beyond which one of the judged shares lies by luck with no more than the family risk. */
export function familyScore(outcomes: readonly Outcome[]): number {
  const sides = outcomes
    .filter(({ experiment }) => experiment.promise !== 'told')
    .reduce((sum, { experiment, shares }) => sum + shares.length * (experiment.promise === 'exact' ? 2 : 1), 0);
  return -normalQuantile(FAMILY_RISK / Math.max(1, sides));
}

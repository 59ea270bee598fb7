import { isNotEvaluated, type NotEvaluated, type Step } from '@breakbook/lab';
import { requireCount, requireFraction } from '../../requirements.js';
import { boundsOfDecisions, type DecidedTechnique } from './decided-bound.js';
import { decide, type TriedDistribution, USUAL_ALPHA } from './decision.js';
import { pathCoverage } from './path-coverage.js';
import { stepsOf } from './steps.js';

/** Simulated sets of batches if none are asked for: at 0.95 a standard error of 0.007. */
const USUAL_REPLICATES = 1000;

export interface BasisValue {
  method: 'basis value';
  n: number;
  batches: number;
  coverage: number;
  confidence: number;
  alpha: number;
  /** In the unit of the values. */
  bound: number;
  technique: DecidedTechnique;
  /** Where one was taken. */
  distribution?: TriedDistribution;
  /** What the claim is about. */
  population: 'this batch alone' | 'batches made as these were';
  /** The confidence that the whole path reaches: the smaller of those simulated. */
  achievedConfidence: number;
  simulationError: number;
  /** False where the path falls short of the confidence by more than the simulation error. */
  keepsConfidence: boolean;
  steps: Step[];
  warnings: string[];
  seed: number;
  replicates: number;
}

export interface BasisQuestion {
  coverage: number;
  confidence: number;
  /** Chance of calling batches unlike where they are alike; 0.025 if left out. */
  alpha?: number | undefined;
  seed?: number | undefined;
  replicates?: number | undefined;
}

/**
 * What strength does at least this share of a population exceed, when tests on the sample itself decide how the bound is
 * formed? The whole path: is any value apart, do batches agree, are they pooled, which distribution explains them, and
 * what bound follows (see `decide` and `boundsOfDecisions`).
 *
 * Only where a plan declares it: choosing by what was found costs confidence. How much is simulated for the path as a
 * whole (see `pathCoverage`) and stated; where it falls short `keepsConfidence` is false. Values called out are printed and
 * never left out. Complete samples only. Smallest: 5 values where batches are pooled; fewer than five batches are warned
 * of, and one limits the claim to itself.
 *
 * Source: MIL-HDBK-17-1F (2002), volume 1, section 8.3.1 (order of the steps from memory).
 */
export function basisValue(
  groups: readonly (readonly number[])[],
  { coverage, confidence, alpha = USUAL_ALPHA, seed = 1, replicates = USUAL_REPLICATES }: BasisQuestion,
): BasisValue | NotEvaluated {
  requireFraction('basisValue', { coverage, confidence, alpha });
  requireCount('basisValue', { replicates }, 100);
  const aim = { coverage, confidence };
  const decision = decide(groups, alpha);
  if (isNotEvaluated(decision)) return decision;
  const found = boundsOfDecisions(aim)(decision);
  if (isNotEvaluated(found)) return found;
  const coverages = pathCoverage(decision, { ...aim, alpha, seed, replicates });
  if (isNotEvaluated(coverages)) return coverages;
  const least = coverages.reduce((worst, one) => (one.share < worst.share ? one : worst));
  const keepsConfidence = least.share >= confidence - least.error;
  const steps = stepsOf(decision, found, coverages);
  return {
    method: 'basis value',
    n: groups.flat().length,
    batches: groups.length,
    ...aim,
    alpha,
    ...found,
    ...(decision.distribution ? { distribution: decision.distribution } : {}),
    population: groups.length === 1 ? 'this batch alone' : 'batches made as these were',
    achievedConfidence: least.share,
    simulationError: least.error,
    keepsConfidence,
    steps,
    warnings: [
      ...(groups.length < 5 ? [(steps[0] as Step).answer] : []),
      ...(keepsConfidence
        ? []
        : [
            `the path as a whole reaches ${(100 * least.share).toFixed(1)} % and not ${100 * confidence} % (${least.population})`,
          ]),
    ],
    seed,
    replicates,
  };
}

import { isNotEvaluated } from '@breakbook/lab';
import { toleranceConfidence } from '../../bounds/tolerance-confidence.js';
import { normalModel, type StrengthModel, weibullModel } from '../../fits/strength-model.js';
import { type Censoring, drawSample, plannedBreaks, strengthOf } from '../censoring.js';
import { type Experiment, heldAt } from '../experiment.js';

const CONFIDENCES = [0.9, 0.95, 0.99] as const;
const COVERAGES = [0.9, 0.99] as const;
const SHARES = [0.25, 0.5, 0.75] as const;
export const SIZES = [3, 5, 8, 12, 20, 50] as const;
const MODELS = [normalModel, weibullModel] as const;

/**
 * Normal and Weibull bounds of samples from their own distribution; lognormal is normal of the logarithms. The technique
 * does not depend on the parameters, so one population stands for all, whatever its shape.
 */
export function parametricExperiments(): Experiment[] {
  return MODELS.flatMap((model) =>
    censorings().flatMap((censoring) =>
      SIZES.filter((n) => censoring.kind !== 'ended at a break' || worthEnding(n, censoring.share)).flatMap((n) =>
        COVERAGES.map((coverage) => experimentOf(model, n, coverage, censoring)),
      ),
    ),
  );
}

function censorings(): Censoring[] {
  const early = ['ended at a break', 'ended at one value', 'ended at random'] as const;
  return [
    { kind: 'complete', share: 0 },
    ...early.flatMap((kind) => SHARES.map((share): Censoring => ({ kind, share }))),
  ];
}

/** Two breaks at least, and one specimen that is ended. */
function worthEnding(n: number, share: number): boolean {
  return Math.round(n * (1 - share)) >= 2 && plannedBreaks(n, share) < n;
}

function experimentOf(model: StrengthModel, n: number, coverage: number, censoring: Censoring): Experiment {
  const { kind, share } = censoring;
  const exact = kind === 'complete' || kind === 'ended at a break';
  const truth = strengthOf(model, 1 - coverage);
  return {
    table: `${model.distribution === 'weibull' ? 'Weibull' : 'Normal'}: ${exact ? 'exact' : 'generalised pivotal'}, ${kind}`,
    row: { n, ...(kind === 'complete' ? {} : { 'share ended': share }), coverage },
    confidences: CONFIDENCES,
    promise: exact ? 'exact' : 'conservative',
    draw(chance) {
      const sample = drawSample(model, n, censoring, chance);
      const { distribution } = model;
      const found = toleranceConfidence(sample, { coverage, strength: truth, distribution, coarse: true });
      return isNotEvaluated(found) ? undefined : heldAt(CONFIDENCES, found.confidence);
    },
  };
}

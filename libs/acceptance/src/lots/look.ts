import type { Distribution, PlanLine } from '@breakbook/lab';
import { stageConfidence } from '@breakbook/statistics';
import { remembered } from '../remembered.js';

/** One look at the claim of a line: after which stage of the schedule it is taken. A line without stages is looked at once. */
export interface Look {
  /** From 1. */
  stage: number;
  /** Specimens planned up to each look. */
  sizes: readonly number[];
  last: boolean;
}

export function looksOf({ specimens, stages }: Pick<PlanLine, 'specimens' | 'stages'>): Look[] {
  if (!stages) return [{ stage: 1, sizes: [specimens], last: true }];
  let sum = 0;
  const sizes = stages.map((adds) => {
    sum += adds;
    return sum;
  });
  return sizes.map((_, index) => ({ stage: index + 1, sizes, last: index === sizes.length - 1 }));
}

export function plannedAt({ stage, sizes }: Look): number {
  return sizes[stage - 1] as number;
}

/** The level at which each look takes a bound, so that the whole schedule keeps the confidence claimed. */
export interface LookConfidence {
  perStage: number;
  /** What the schedule keeps, and what it would keep without this. */
  overall: number;
  unadjusted: number;
}

export function lookConfidence(
  { sizes }: Pick<Look, 'sizes'>,
  claim: { distribution: Distribution; coverage: number; confidence: number },
): LookConfidence {
  const { distribution, coverage, confidence } = claim;
  if (sizes.length === 1) return { perStage: confidence, overall: confidence, unadjusted: confidence };
  const { perStageConfidence, overall, unadjusted } = schedule({ stages: sizes, coverage, confidence, distribution });
  return { perStage: perStageConfidence, overall, unadjusted };
}

/** Seconds long for Weibull, and asked for at every look. */
const schedule = remembered(100, stageConfidence);

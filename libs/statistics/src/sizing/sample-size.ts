import { isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import { type BoundGoal, sizeForBound } from './size-for-bound.js';
import {
  type MeanLimitsGoal,
  type ShiftGoal,
  sizeForMeanLimits,
  sizeForOneSample,
  sizeForTwoSamples,
} from './size-for-means.js';
import { type PlanGoal, sizeForAttributePlan, sizeForVariablesPlan } from './size-for-plans.js';
import type { Simulation } from './weibull-acceptance.js';

/** What the specimens are for. */
export type SizeGoal =
  | ({ kind: 'mean-limits' } & MeanLimitsGoal)
  | ({ kind: 'one-sample' } & ShiftGoal)
  | ({ kind: 'two-sample'; difference: number } & Omit<ShiftGoal, 'shift'>)
  | ({ kind: 'variables-plan' } & PlanGoal)
  | ({ kind: 'attribute-plan' } & PlanGoal)
  | ({ kind: 'tolerance-bound' } & Omit<BoundGoal, keyof Simulation>);

export interface SampleSize {
  method: 'sample size';
  for: SizeGoal;
  /** In each group for two groups. */
  n: number;
  k?: number;
  c?: number;
  /** What n really gives. */
  achieved: { halfWidth: number } | { power: number } | { producerRisk: number; consumerRisk: number };
  fractionBelow?: number;
  simulationError?: number;
  seed?: number;
  replicates?: number;
}

/**
 * How many specimens are needed for a question to be answered as surely as asked? Each kind has its own file:
 * `sizeForMeanLimits`, `sizeForOneSample`, `sizeForTwoSamples`, `sizeForVariablesPlan`, `sizeForAttributePlan` and
 * `sizeForBound`.
 */
export function sizeFor(goal: SizeGoal, simulation: Simulation = {}): SampleSize | NotEvaluated {
  const found = foundFor(goal, simulation);
  return isNotEvaluated(found) ? found : { method: 'sample size', for: goal, ...found };
}

function foundFor(goal: SizeGoal, simulation: Simulation): Omit<SampleSize, 'method' | 'for'> | NotEvaluated {
  switch (goal.kind) {
    case 'mean-limits': {
      const found = sizeForMeanLimits(goal);
      return isNotEvaluated(found) ? found : { n: found.n, achieved: { halfWidth: found.halfWidth } };
    }
    case 'one-sample':
      return withPower(sizeForOneSample(goal));
    case 'two-sample':
      return withPower(sizeForTwoSamples({ ...goal, shift: goal.difference }));
    case 'variables-plan':
      return sizeForVariablesPlan(planOf(goal));
    case 'attribute-plan':
      return sizeForAttributePlan(planOf(goal));
    case 'tolerance-bound':
      return sizeForBound({ ...goal, ...simulation });
  }
}

function withPower(found: { n: number; power: number } | NotEvaluated) {
  return isNotEvaluated(found) ? found : { n: found.n, achieved: { power: found.power } };
}

function planOf({ acceptable, producerRisk, rejectable, consumerRisk }: PlanGoal): PlanGoal {
  return { acceptable, producerRisk, rejectable, consumerRisk };
}

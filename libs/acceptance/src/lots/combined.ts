import type { CriterionOutcome, LotOutcome, PlanLine } from '@breakbook/lab';

/**
 * By all: met when all are met, not met when any is not, undecided otherwise. By any: met when one is, not met when none
 * is. Left out: by all.
 */
export function combined(
  outcomes: readonly CriterionOutcome[],
  { combination }: Pick<PlanLine, 'combination'> = {},
): LotOutcome {
  const met = (one: CriterionOutcome) => one === 'met';
  const notMet = (one: CriterionOutcome) => one === 'not met';
  if (combination?.rule === 'any') {
    if (outcomes.some(met)) return 'meets the plan';
    return outcomes.every(notMet) ? 'does not meet the plan' : 'undecided';
  }
  if (outcomes.some(notMet)) return 'does not meet the plan';
  return outcomes.every(met) ? 'meets the plan' : 'undecided';
}

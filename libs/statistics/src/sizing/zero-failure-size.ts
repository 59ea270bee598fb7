import type { NotEvaluated } from '@breakbook/lab';
import { type DemonstrationGoal, type DemonstrationSize, demonstrationSize } from './demonstration-size.js';

/**
 * How many specimens must be tested, all without failure, to show that at least this share of the
 * population holds, with this confidence?
 *
 *     n = smallest whole number with reliability^n <= 1 - confidence
 *
 * and for a lot of N units the same by the hypergeometric distribution: `demonstrationSize` with no
 * failure allowed.
 *
 * Source: Clopper and Pearson (1934), Biometrika 26, 404-413; the case of no failures.
 */
export function zeroFailureSize(goal: Omit<DemonstrationGoal, 'allowedFailures'>): DemonstrationSize | NotEvaluated {
  return demonstrationSize({ ...goal, allowedFailures: 0 });
}

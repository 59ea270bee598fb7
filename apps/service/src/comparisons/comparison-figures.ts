import type { LimitBeside } from '@breakbook/acceptance';
import type { ComparisonInput } from '@breakbook/figures';
import { type ComparisonCase, type ComparisonResult, isNotEvaluated } from '@breakbook/lab';
import { reports } from '../arithmetic.js';

/** The picture of each compared characteristic that lies on an axis. */
export async function comparisonFigures(
  given: ComparisonCase,
  { characteristics }: ComparisonResult,
  limits: LimitBeside[],
): Promise<{ characteristic: string; figure: ComparisonInput }[]> {
  const { comparisonFigureOf } = await reports();
  return characteristics.flatMap((found) => {
    const drawn = comparisonFigureOf({ case: given, limits }, found);
    if (isNotEvaluated(drawn)) return [];
    // Its words are made where it is drawn; functions do not travel.
    const { language: _, ...figure } = drawn;
    return { characteristic: found.name, figure };
  });
}

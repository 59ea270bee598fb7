import type { ComparisonInput } from '@breakbook/figures';
import { type ComparisonCase, type ComparisonResult, isNotEvaluated, type MeasuredLimit } from '@breakbook/lab';
import { reports } from '../arithmetic.js';
import type { StoredCase } from './stored-case.js';

/** A limit drawn beside the values of a declared characteristic; no item is held to it by a comparison. */
export interface LimitBeside {
  /** As it is named in the declaration. */
  characteristic: string;
  limit: MeasuredLimit;
}

/** Limits of the plans under which the compared runs were made, each once. */
export function limitsBeside({ given, runs }: Pick<StoredCase, 'given' | 'runs'>): LimitBeside[] {
  const limits = runs.flatMap(({ judge }) => judge.limits).filter((one) => one.bound !== 'absent');
  const once = [...new Map(limits.map((one) => [`${one.limit} ${one.revision}`, one])).values()];
  return given.comparison.characteristics.flatMap(({ name, source, tool }) =>
    source.from === 'examination' || tool.kind === 'failure modes'
      ? []
      : once.flatMap((limit) =>
          limit.characteristic === source.characteristic ? { characteristic: name, limit } : [],
        ),
  );
}

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

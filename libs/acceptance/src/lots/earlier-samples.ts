import {
  type CharacteristicValue,
  type EarlierSample,
  isNotEvaluated,
  type Limit,
  type LineResult,
  limitName,
  type Plan,
  type PlanLine,
  type RunJudgement,
} from '@breakbook/lab';
import { asSample } from './samples.js';

/** An earlier lot as one evaluation of it left it. */
export interface EvaluatedEarlier {
  lot: string;
  madeTo: string;
  /** The plan revision it was judged under. */
  plan: Plan;
  lines: readonly LineResult[];
  judgements: readonly RunJudgement[];
  /** The short number of the evaluation. */
  evaluation?: string;
}

/** What the bounds of a plan line are about. */
function boundedBy(line: PlanLine, limits: readonly Limit[]): string[] {
  const named = line.criteria.filter(({ kind }) => kind === 'tolerance bound').map(({ limit }) => limitName(limit));
  return [...new Set(limits.filter((one) => named.includes(limitName(one))).map((one) => one.characteristic))].sort();
}

/**
 * What does an earlier lot give to a plan line that pools? The values of its claim, as that evaluation took them, for
 * each characteristic that a bound of the line is about; nothing where it was tested under another key, method or method
 * revision. A specimen of its claim that gave no value is counted, so that the others are not taken for the whole.
 */
export function earlierSamplesOf(
  line: PlanLine,
  limits: readonly Limit[],
  { lines, plan, judgements, ...of }: EvaluatedEarlier,
): EarlierSample[] {
  const then = plan.lines.find((one) => one.line === line.line);
  const result = lines.find((one) => one.line === line.line);
  if (!result || then?.method !== line.method || then.methodRevision !== line.methodRevision) return [];
  const claimed = result.entries.filter(({ inClaim }) => inClaim).map(({ run }) => run);
  const runs = judgements.filter(({ run }) => claimed.includes(run));
  return boundedBy(line, limits).flatMap((characteristic): EarlierSample[] => {
    const found = runs.flatMap(({ results }) => results.filter((one) => one.characteristic === characteristic));
    const values = found.flatMap(({ value }): CharacteristicValue[] => (isNotEvaluated(value) ? [] : [value]));
    const [unit, ...others] = new Set(found.map((one) => one.unit));
    // One method revision gives a characteristic in one unit.
    if (unit === undefined || others.length > 0 || values.length === 0) return [];
    const missing = claimed.length - values.length;
    return [
      {
        lot: of.lot,
        madeTo: of.madeTo,
        line: line.line,
        method: line.method,
        methodRevision: line.methodRevision,
        characteristic,
        unit,
        sample: asSample(values),
        ...(missing > 0 ? { missing } : {}),
        ...(of.evaluation === undefined ? {} : { evaluation: of.evaluation }),
      },
    ];
  });
}

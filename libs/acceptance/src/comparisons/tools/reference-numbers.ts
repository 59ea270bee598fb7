import { isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { endsOf, isExact } from '../ends.js';
import { byLot, lotsAlike, tooFewLots } from './lots.js';
import type { PredictionQuestion } from './predicted.js';

/** Strengths on the scale on which units scatter about their lot: themselves, or their logarithm. */
export interface Scale {
  to: (value: number) => number;
  back: (value: number) => number;
  logarithmic: boolean;
}

export function scaleOf(distribution: PredictionQuestion['tool']['distribution']): Scale {
  return distribution === 'normal'
    ? { to: (value) => value, back: (value) => value, logarithmic: false }
    : { to: Math.log, back: Math.exp, logarithmic: true };
}

/** The reference as numbers: its values lot after lot on their scale, survivors at the end they reached. */
export interface ReferenceNumbers {
  sizes: number[];
  values: Float64Array;
  survivors: number;
  alike?: Step;
}

/** Why the reference cannot serve, or its numbers. */
export function referenceNumbers(
  { tool, reference }: Pick<PredictionQuestion, 'tool' | 'reference'>,
  scale: Scale,
): ReferenceNumbers | NotEvaluated {
  const lots = byLot(reference);
  const few = tooFewLots(lots.length);
  if (few) return few;
  const ended = reference.filter(({ value }) => !isExact(endsOf(value)));
  const limits = new Set(ended.map(({ value }) => endsOf(value).low));
  const exact = reference.map(({ value }) => endsOf(value)).filter(isExact);
  if (ended.some(({ value }) => value.kind !== 'atLeast'))
    return notEvaluated(
      `some reference values are known as "at most" or between two numbers, and the ${tool.distribution} prediction takes none of those`,
      'they are read exactly, or the tool is distribution-free, which honours them',
    );
  if (limits.size > 1 || exact.some(({ high }) => [...limits].some((limit) => high > limit)))
    return notEvaluated(
      `reference values known as "at least" end at different loads, or others broke beyond, and the ${tool.distribution} prediction is calibrated only for one load at which the rig ends every test`,
      'the tool is distribution-free, which honours them as they are',
    );
  if (exact.length < 3)
    return notEvaluated(
      `only ${exact.length} reference values are known exactly`,
      'at least 3 units are taken to their break',
    );
  const raw = lots.map(({ values }) => values.map(({ value }) => endsOf(value).low));
  if (scale.logarithmic && raw.flat().some((value) => value <= 0))
    return notEvaluated(
      `a reference value at or below 0 has no place in a ${tool.distribution} distribution`,
      'all are above 0, or the tool names a normal distribution',
    );
  const alike = tool.lots === 'alike' ? lotsAlike(raw) : undefined;
  if (isNotEvaluated(alike)) return alike;
  const values = Float64Array.from(raw.flat(), scale.to);
  return {
    sizes: tool.lots === 'alike' ? [values.length] : raw.map(({ length }) => length),
    values,
    survivors: ended.length,
    ...(alike ? { alike } : {}),
  };
}

import type { CharacteristicComparison, NotEvaluated, Step, ToolOf } from '@breakbook/lab';
import { type Ends, endsOf, endsOfMean } from '../ends.js';
import type { ToolQuestion } from './tested.js';

export type PredictionQuestion = ToolQuestion<ToolOf<'prediction'>>;
export type Bounds = NonNullable<CharacteristicComparison['bounds']>;

/** What a prediction technique finds, before any level is known. */
export interface Predicted {
  p: number;
  pError?: number;
  /** Chance of a future unit, or mean, as far off as each of what is compared. */
  pOf: number[];
  /** Whose values these are: each item, or the mean of all. */
  compared: Ends[];
  bounds(level: number): Bounds;
  smallest(level: number): number | NotEvaluated;
  steps(level: number): Step[];
}

/** What is compared of the items, on the scale of the distribution: each of them, or their mean. */
export function comparedOf({ tool, items }: PredictionQuestion, scale: (value: number) => number): Ends[] {
  const all = items.map(({ value }) => {
    const { low, high } = endsOf(value);
    return { low: scale(low), high: scale(high) };
  });
  return tool.of === 'each' ? all : [endsOfMean(all)];
}

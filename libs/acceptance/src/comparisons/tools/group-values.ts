import { type ComparedValue, isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { type Ends, endsOf, endsOfMean, isExact } from '../ends.js';
import { byLot, oneByOne } from './lots.js';
import type { ToolQuestion } from './tested.js';

/** What is shared out between two groups: the values of specimens, or the means of lots. */
export interface TwoGroups {
  first: Ends[];
  second: Ends[];
  /** True where every value is known exactly. */
  exact: boolean;
  /** What the tests of lots found, where specimens speak one by one. */
  steps: Step[];
}

export function twoGroups(
  { reference, items, names }: Pick<ToolQuestion, 'reference' | 'items' | 'names'>,
  unit: 'specimens' | 'lot means',
): TwoGroups | NotEvaluated {
  const of = (values: readonly ComparedValue[]): Ends[] =>
    unit === 'specimens'
      ? values.map(({ value }) => endsOf(value))
      : byLot(values).map((lot) => endsOfMean(lot.values.map(({ value }) => endsOf(value))));
  const [first, second] = [of(reference), of(items)];
  if (unit === 'lot means' && (first.length < 2 || second.length < 2))
    return notEvaluated(
      `lot means are compared, and there are ${first.length} lots against ${second.length}`,
      'both sides have at least 2 lots',
    );
  const tests = unit === 'specimens' ? [oneByOne(reference, names.reference), oneByOne(items, names.items)] : [];
  const refused = tests.find(isNotEvaluated);
  if (refused) return refused;
  return {
    first,
    second,
    exact: [...first, ...second].every(isExact),
    steps: tests.filter((one): one is Step => one !== undefined && !isNotEvaluated(one)),
  };
}

export function asNumbers(values: readonly Ends[]): number[] {
  return values.map(({ low }) => low);
}

/** Tests of means and their limits take exact values only. */
export const ONLY_EXACT = notEvaluated(
  'some values are known from one side only, and a test of means takes exact values',
  'the tool is Mann-Whitney or permutation, which then count only the pairs that are surely ordered',
);

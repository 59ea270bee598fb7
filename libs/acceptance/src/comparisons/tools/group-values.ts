import { type ComparedValue, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { type Ends, endsOf, endsOfMean, isExact } from '../ends.js';
import { byLot } from './lots.js';

/** What is shared out between two groups: the values of specimens, or the means of lots. */
export interface TwoGroups {
  first: Ends[];
  second: Ends[];
  /** True where every value is known exactly. */
  exact: boolean;
}

export function twoGroups(
  { reference, items }: { reference: readonly ComparedValue[]; items: readonly ComparedValue[] },
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
  return { first, second, exact: [...first, ...second].every(isExact) };
}

export function asNumbers(values: readonly Ends[]): number[] {
  return values.map(({ low }) => low);
}

/** Tests of means and their limits take exact values only. */
export const ONLY_EXACT = notEvaluated(
  'some values are known from one side only, and a test of means takes exact values',
  'the tool is Mann-Whitney or permutation, which then count only the pairs that are surely ordered',
);

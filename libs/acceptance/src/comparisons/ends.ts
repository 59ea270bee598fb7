import type { CharacteristicValue } from '@breakbook/lab';

/** The smallest and the largest that a value can be, infinite where nothing bounds it. */
export interface Ends {
  low: number;
  high: number;
}

export function endsOf(value: CharacteristicValue): Ends {
  switch (value.kind) {
    case 'exact':
      return { low: value.value, high: value.value };
    case 'atLeast':
      return { low: value.value, high: Number.POSITIVE_INFINITY };
    case 'atMost':
      return { low: Number.NEGATIVE_INFINITY, high: value.value };
    case 'between':
      return { low: value.lower, high: value.upper };
  }
}

/** The ends of the mean of several values. */
export function endsOfMean(values: readonly Ends[]): Ends {
  const mean = (of: (one: Ends) => number) => values.reduce((sum, one) => sum + of(one), 0) / values.length;
  return { low: mean(({ low }) => low), high: mean(({ high }) => high) };
}

export function isExact({ low, high }: Ends): boolean {
  return low === high;
}

/** Where a value stands in for itself in a test of lots: a survivor at the end it reached. */
export function standIn({ low, high }: Ends): number {
  if (Number.isFinite(low)) return Number.isFinite(high) ? (low + high) / 2 : low;
  return high;
}

import { mean, sum } from 'simple-statistics';

/** Values taken about their mean. */
export interface Centred {
  n: number;
  mean: number;
  /** The mean in two parts, first value and what is to be added: differences of means keep their digits so. */
  first: number;
  shift: number;
  /** Each value less the mean, in the order given. */
  deviations: number[];
  /** Sum of the squared deviations. */
  squares: number;
}

/**
 * Values about their mean, at least one of them. Sums are compensated and taken from the first value
 * on: differences are exact where the values share many digits, and values all alike have deviations
 * of exactly 0.
 */
export function centred(values: readonly number[]): Centred {
  const [first] = values;
  if (first === undefined) throw new RangeError('centred: needs at least one value; got none.');
  const differences = values.map((value) => value - first);
  const shift = mean(differences);
  const deviations = differences.map((difference) => difference - shift);
  return {
    n: values.length,
    mean: first + shift,
    first,
    shift,
    deviations,
    squares: sum(deviations.map((deviation) => deviation * deviation)),
  };
}

/** The mean of `one` less that of `other`, without the digits that both share. */
export function differenceOfMeans(one: Centred, other: Centred): number {
  return one.first - other.first + (one.shift - other.shift);
}

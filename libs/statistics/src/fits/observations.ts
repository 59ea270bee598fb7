import type { Sample } from '@breakbook/lab';
import { requireValues } from '../requirements.js';

/** A sample as sorted-out arrays on the scale where its family is of location-scale form. */
export interface Observations {
  exact: Float64Array;
  atLeast: Float64Array;
  atMost: Float64Array;
  /** Interval i runs from lower[i] to upper[i]. */
  lower: Float64Array;
  upper: Float64Array;
  /** How many specimens, those included whose value says nothing (held at least 0). */
  n: number;
  /** How many of them broke: exact, at most and between. */
  failures: number;
}

/**
 * The logarithms of a sample of strengths. "Held at least 0" says nothing about a strength and
 * "between 0 and b" is "at most b"; every other number must be above 0.
 */
export function logObservations(caller: string, sample: Sample): Observations {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireStrengths(caller, 'exact', exact);
  requireStrengths(caller, 'atLeast', atLeast, 0);
  requireStrengths(caller, 'atMost', atMost);
  for (const [low, high] of between)
    if (!(low >= 0 && high > low && Number.isFinite(high)))
      throw new RangeError(`${caller}: between holds [${low}, ${high}]; an interval runs upward from 0 or more.`);

  const bounded = between.filter(([low]) => low > 0);
  const open = between.filter(([low]) => low === 0);
  const failures = exact.length + atMost.length + between.length;
  return {
    exact: logarithms(exact),
    atLeast: logarithms(atLeast.includes(0) ? atLeast.filter((value) => value > 0) : atLeast),
    atMost: logarithms(open.length > 0 ? [...atMost, ...open.map(([, high]) => high)] : atMost),
    lower: logarithms(bounded.map(([low]) => low)),
    upper: logarithms(bounded.map(([, high]) => high)),
    n: failures + atLeast.length,
    failures,
  };
}

/** A sample as it is, for a distribution in which any finite number is possible. */
export function plainObservations(caller: string, sample: Sample): Observations {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues(caller, 'exact', exact);
  requireValues(caller, 'atLeast', atLeast);
  requireValues(caller, 'atMost', atMost);
  for (const [low, high] of between)
    if (!(high > low && Number.isFinite(low) && Number.isFinite(high)))
      throw new RangeError(`${caller}: between holds [${low}, ${high}]; an interval runs upward.`);

  const failures = exact.length + atMost.length + between.length;
  return {
    exact: Float64Array.from(exact),
    atLeast: Float64Array.from(atLeast),
    atMost: Float64Array.from(atMost),
    lower: Float64Array.from(between, ([low]) => low),
    upper: Float64Array.from(between, ([, high]) => high),
    n: failures + atLeast.length,
    failures,
  };
}

function logarithms(values: readonly number[]): Float64Array {
  const found = new Float64Array(values.length);
  for (let index = 0; index < values.length; index++) found[index] = Math.log(values[index] as number);
  return found;
}

function requireStrengths(caller: string, name: string, values: readonly number[], lowest?: 0): void {
  for (let index = 0; index < values.length; index++) {
    const value = values[index] as number;
    if (!(value > 0 || value === lowest) || value === Number.POSITIVE_INFINITY)
      throw new RangeError(`${caller}: ${name}[${index}] is ${value}; a strength is a finite number above 0.`);
  }
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { max, median, min, sum } from 'simple-statistics';
import { requireValues } from '../requirements.js';
import { type Centred, centred } from './centred.js';

/** A number that can always be said of these values, or why it cannot. */
export type Described = number | NotEvaluated;

/** What a list of values looks like. Every number but n, cv and the autocorrelation is in the unit of the values. */
export interface Summary {
  method: 'summary';
  n: number;
  mean: number;
  /** Sample standard deviation, divisor n - 1. */
  sd: Described;
  /** Coefficient of variation: sd / mean, a fraction. */
  cv: Described;
  min: number;
  median: number;
  max: number;
  /** How alike neighbours are, in the order given. */
  lag1Autocorrelation: Described;
}

/**
 * How many values are there, where do they lie, how do they scatter, and does each resemble the one
 * before it?
 *
 *     sd^2 = sum (x_i - m)^2 / (n - 1)
 *     r_1  = sum over i < n of (x_i - m)(x_(i+1) - m) / sum (x_i - m)^2
 *
 * with m the mean. Sums are compensated and taken about the mean, so that a large common part of
 * the values costs no digits. The order matters for r_1 alone, and there it is the order given.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, sections 1.3.5.1, 1.3.5.6 and 1.3.5.12.
 */
export function summary(values: readonly number[]): Summary | NotEvaluated {
  requireValues('summary', 'values', values);
  if (values.length === 0) return notEvaluated('there are no values', 'at least 1 value is given');

  const about = centred(values);
  const sd = scatterOf(about);
  return {
    method: 'summary',
    n: about.n,
    mean: about.mean,
    sd,
    cv: ratioTo(about.mean, sd),
    min: min([...values]),
    median: median([...values]),
    max: max([...values]),
    lag1Autocorrelation: neighbourCorrelation(about),
  };
}

function scatterOf({ n, squares }: Centred): Described {
  if (n < 2) return notEvaluated('a single value says nothing about scatter', 'at least 2 values are given');
  return Math.sqrt(squares / (n - 1));
}

function ratioTo(average: number, sd: Described): Described {
  if (typeof sd !== 'number') return sd;
  if (average === 0) return notEvaluated('the mean is 0, so scatter has no ratio to it', 'the mean is not 0');
  return sd / average;
}

function neighbourCorrelation({ deviations, squares }: Centred): Described {
  if (squares === 0) return notEvaluated('the values do not differ', 'at least 2 different values are given');
  return sum(deviations.slice(1).map((value, index) => value * (deviations[index] as number))) / squares;
}

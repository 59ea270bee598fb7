import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { mean } from 'simple-statistics';
import { centred } from '../description/centred.js';
import type { Described } from '../description/summary.js';
import { requireFinite, requirePositive, requireValues } from '../requirements.js';
import { rangeMoments } from './range-moments.js';

export interface IndividualsChart {
  method: 'individuals chart';
  /** Middle line, in the unit of the values. */
  centre: number;
  sigma: number;
  limits: [number, number];
  /** Mean of the differences between neighbours; not evaluated for a single value. */
  movingRangeMean: Described;
  /** Upper limit of those differences. */
  movingRangeUpper: number;
  /** Which values lie outside the limits, from 0. */
  signals: number[];
  /** Which values differ too much from the one before. */
  movingRangeSignals: number[];
}

export interface ChartReference {
  /** Middle line, where it is known; otherwise the mean of the values. */
  target?: number | undefined;
  /** Scatter of single values, where it is known; otherwise from the differences between neighbours. */
  sigma?: number | undefined;
}

/**
 * Does a series of values, one for each lot, run on unchanged?
 *
 *     sigma = mean |x_i - x_(i - 1)| / d2,     limits = centre -+ 3 sigma
 *     upper limit of the differences = (1 + 3 d3 / d2) d2 sigma
 *
 * with d2 = 2 / sqrt pi and d3 = sqrt(2 - 4 / pi), those of two values. Values in the order they were found, in one unit.
 *
 * Assumes values independent and normal while nothing changes. Smallest: 2 values; 1 where sigma is given.
 *
 * Source: NIST/SEMATECH e-Handbook, section 6.3.2.2 (which rounds d2 to 1.128).
 */
export function individualsChart(
  values: readonly number[],
  { target, sigma }: ChartReference = {},
): IndividualsChart | NotEvaluated {
  requireValues('individualsChart', 'values', values);
  if (target !== undefined) requireFinite('individualsChart', { target });
  if (sigma !== undefined) requirePositive('individualsChart', { sigma });
  if (values.length === 0) return notEvaluated('there are no values', 'at least 1 value is given');

  const ranges = values.slice(1).map((value, index) => Math.abs(value - (values[index] as number)));
  const movingRangeMean =
    ranges.length > 0
      ? mean(ranges)
      : notEvaluated('a single value has no neighbour to differ from', 'at least 2 values are given');
  const { mean: d2, sd: d3 } = rangeMoments(2);
  const spread = sigma ?? (typeof movingRangeMean === 'number' ? movingRangeMean / d2 : movingRangeMean);
  if (typeof spread !== 'number') return spread;
  if (spread === 0)
    return notEvaluated(
      'neighbouring values do not differ, so nothing is known of their scatter',
      'values are read finely enough to differ, or sigma is given',
    );
  const centre = target ?? centred(values).mean;
  const limits: [number, number] = [centre - 3 * spread, centre + 3 * spread];
  const movingRangeUpper = (d2 + 3 * d3) * spread;
  return {
    method: 'individuals chart',
    centre,
    sigma: spread,
    limits,
    movingRangeMean,
    movingRangeUpper,
    signals: placesWhere(values, (value) => value < limits[0] || value > limits[1]),
    movingRangeSignals: placesWhere(ranges, (range) => range > movingRangeUpper).map((index) => index + 1),
  };
}

/** Which of the values show something, from 0. */
export function placesWhere(values: readonly number[], shows: (value: number, index: number) => boolean): number[] {
  return values.flatMap((value, index) => (shows(value, index) ? [index] : []));
}

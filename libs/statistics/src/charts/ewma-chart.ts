import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFinite, requirePositive, requireValues } from '../requirements.js';
import { placesWhere } from './individuals-chart.js';

/** What a chart of weighted means is drawn with. */
export interface EwmaDesign {
  /** Middle line and start, in the unit of the values. */
  target: number;
  /** Scatter of single values, same unit. */
  sigma: number;
  /** Weight of the newest value, above 0 and at most 1. */
  lambda: number;
  /** Half the distance of the limits, in standard deviations of the weighted mean. */
  width: number;
}

export interface EwmaChart {
  method: 'EWMA chart';
  points: number[];
  /** Of each point: they open as the start is forgotten. */
  limits: [number, number][];
  /** What the limits tend to. */
  finalLimits: [number, number];
  signals: number[];
}

/**
 * Does a series of values drift slowly?
 *
 *     point_i = lambda x_i + (1 - lambda) point_(i - 1),     point_0 = target
 *     limits = target -+ width sigma sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^(2 i)))
 *
 * Assumes values independent and normal while nothing changes. Smallest: 1 value.
 *
 * Source: Roberts (1959), Technometrics 1, 239-250; NIST/SEMATECH e-Handbook, section 6.3.2.4 (which draws the final limits
 * throughout).
 */
export function ewmaChart(values: readonly number[], design: EwmaDesign): EwmaChart | NotEvaluated {
  const { target, sigma, lambda, width } = design;
  requireValues('ewmaChart', 'values', values);
  requireFinite('ewmaChart', { target });
  requirePositive('ewmaChart', { sigma, width });
  requireWeight('ewmaChart', lambda);
  if (values.length === 0) return notEvaluated('there are no values', 'at least 1 value is given');

  const full = width * sigma * ewmaSd(lambda);
  let at = target;
  const points = values.map((value) => {
    at = lambda * value + (1 - lambda) * at;
    return at;
  });
  const limits = points.map((_, index): [number, number] => {
    const reach = full * Math.sqrt(1 - (1 - lambda) ** (2 * (index + 1)));
    return [target - reach, target + reach];
  });
  return {
    method: 'EWMA chart',
    points,
    limits,
    finalLimits: [target - full, target + full],
    signals: placesWhere(points, (point, index) => {
      const [low, high] = limits[index] as [number, number];
      return point < low || point > high;
    }),
  };
}

/** Standard deviation of the weighted mean of values of scatter 1, the start forgotten. */
export function ewmaSd(lambda: number): number {
  return Math.sqrt(lambda / (2 - lambda));
}

export function requireWeight(caller: string, lambda: number): void {
  if (!(lambda > 0 && lambda <= 1))
    throw new RangeError(`${caller}: lambda lies above 0 and is at most 1; got ${lambda}.`);
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFinite, requirePositive, requireValues } from '../requirements.js';
import { placesWhere } from './individuals-chart.js';

/** What a chart of cumulative sums is drawn with. */
export interface CusumDesign {
  target: number;
  /** Scatter of single values, in the unit of target and values. */
  sigma: number;
  /** Half the shift that is to be found, in sigmas. */
  k: number;
  /** How much must have gathered for a signal, in sigmas. */
  h: number;
}

export interface CusumChart {
  method: 'CUSUM chart';
  /** What has gathered upward and downward, in sigmas, both counted positive. */
  upper: number[];
  lower: number[];
  signals: number[];
}

/**
 * Does a series of values run a little off its target, for long?
 *
 *     upper_i = max(0, upper_(i - 1) + z_i - k),     lower_i = max(0, lower_(i - 1) - z_i - k),     z = (x - target) / sigma
 *
 * both from 0; a signal where either exceeds h. The sums run on after a signal.
 *
 * Assumes values independent and normal while nothing changes. Smallest: 1 value.
 *
 * Source: Page (1954), Biometrika 41, 100-115; NIST/SEMATECH e-Handbook, section 6.3.2.3.
 */
export function cusumChart(values: readonly number[], { target, sigma, k, h }: CusumDesign): CusumChart | NotEvaluated {
  requireValues('cusumChart', 'values', values);
  requireFinite('cusumChart', { target, k });
  requirePositive('cusumChart', { sigma, h });
  if (k < 0) throw new RangeError(`cusumChart: k must be at least 0; got ${k}.`);
  if (values.length === 0) return notEvaluated('there are no values', 'at least 1 value is given');
  const scores = values.map((value) => (value - target) / sigma);
  const upper = gathered(scores, k);
  const lower = gathered(
    scores.map((score) => -score),
    k,
  );
  return {
    method: 'CUSUM chart',
    upper,
    lower,
    signals: placesWhere(upper, (sum, index) => sum > h || (lower[index] as number) > h),
  };
}

function gathered(scores: readonly number[], k: number): number[] {
  let sum = 0;
  return scores.map((score) => {
    sum = Math.max(0, sum + score - k);
    return sum;
  });
}

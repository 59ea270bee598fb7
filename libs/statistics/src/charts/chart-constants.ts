import gammaln from '@stdlib/math-base-special-gammaln';
import { requireCount } from '../requirements.js';
import { rangeMoments } from './range-moments.js';

/** Constants of control charts for groups of n normal values; ratios, without a unit. */
export interface ChartConstants {
  method: 'control chart constants';
  n: number;
  /** Mean range over sigma. */
  d2: number;
  /** Standard deviation of the range over sigma. */
  d3: number;
  /** Mean sample standard deviation over sigma. */
  c4: number;
  /** Limits of a chart of means: mean -+ a2 mean range, or -+ a3 mean standard deviation. */
  a2: number;
  a3: number;
  /** Limits of a chart of standard deviations, times their mean. */
  b3: number;
  b4: number;
  /** Limits of a chart of ranges, times their mean. */
  d3Factor: number;
  d4Factor: number;
}

/**
 * With what factors are the limits of control charts formed for groups of n values?
 *
 *     c4 = sqrt(2 / (n - 1)) Gamma(n / 2) / Gamma((n - 1) / 2)
 *     a2 = 3 / (d2 sqrt n),     a3 = 3 / (c4 sqrt n)
 *     b3, b4 = 1 -+ 3 sqrt(1 - c4^2) / c4,     d3Factor, d4Factor = 1 -+ 3 d3 / d2     (at least 0)
 *
 * with d2 and d3 from `rangeMoments`. Assumes values independent and normal. Smallest n: 2.
 *
 * Source: ISO 7870-2:2013; Montgomery, Introduction to Statistical Quality Control, appendix VI.
 */
export function chartConstants(n: number): ChartConstants {
  requireCount('chartConstants', { n }, 2);
  const { mean: d2, sd: d3 } = rangeMoments(n);
  const c4 = Math.sqrt(2 / (n - 1)) * Math.exp(gammaln(n / 2) - gammaln((n - 1) / 2));
  const spreadOfSd = (3 * Math.sqrt(1 - c4 * c4)) / c4;
  const spreadOfRange = (3 * d3) / d2;
  return {
    method: 'control chart constants',
    n,
    d2,
    d3,
    c4,
    a2: 3 / (d2 * Math.sqrt(n)),
    a3: 3 / (c4 * Math.sqrt(n)),
    b3: Math.max(0, 1 - spreadOfSd),
    b4: 1 + spreadOfSd,
    d3Factor: Math.max(0, 1 - spreadOfRange),
    d4Factor: 1 + spreadOfRange,
  };
}

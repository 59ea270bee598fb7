import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { sum } from 'simple-statistics';
import { plottingPositions } from './plotting-positions.js';

export interface WeibullRankRegression {
  method: 'Weibull rank regression';
  n: number;
  failures: number;
  positions: 'exact' | 'benard';
  of: 'value-on-rank' | 'rank-on-value';
  shape: number;
  /** In the unit of the sample. */
  scale: number;
  /** Square of the correlation of the points, a fraction. */
  rSquared: number;
}

/**
 * Which straight line lies nearest to the points of a Weibull plot?
 *
 *     y = ln(-ln(1 - position)),  x = ln strength,  y = shape (x - ln scale)
 *
 * by least squares of the ranks (y) given the values, or of the values (x) given the ranks, with exact or Benard's
 * positions and ranks raised for specimens withdrawn. For drawing and for comparison with older reports: its errors are
 * not those the line assumes, so no limits are given. Smallest: 2 failures at different strengths.
 *
 * Source: Abernethy, Breneman, Medlin and Reinman (1983), Weibull Analysis Handbook, AFWAL-TR-83-2079; ranks Johnson (1964).
 */
export function weibullRankRegression(
  sample: Sample,
  { positions, of }: Pick<WeibullRankRegression, 'positions' | 'of'>,
): WeibullRankRegression | NotEvaluated {
  const found = plottingPositions(sample);
  if (isNotEvaluated(found)) return found;
  const { n, failures, points } = found;
  const x = points.map(({ value }) => Math.log(value as number));
  if (!x.every(Number.isFinite)) throw new RangeError('weibullRankRegression: every strength must be above 0.');
  if (new Set(x).size < 2)
    return notEvaluated(
      'the points do not differ in strength, so no line passes through them',
      'at least 2 specimens break at different strengths',
    );
  const y = points.map((point) => Math.log(-Math.log1p(-point[positions])));

  const [middleX, middleY] = [sum(x) / x.length, sum(y) / y.length];
  const products = (a: number[], aboutA: number, b: number[], aboutB: number) =>
    sum(a.map((value, index) => (value - aboutA) * ((b[index] as number) - aboutB)));
  const sxx = products(x, middleX, x, middleX);
  const syy = products(y, middleY, y, middleY);
  const sxy = products(x, middleX, y, middleY);
  const shape = of === 'rank-on-value' ? sxy / sxx : syy / sxy;
  return {
    method: 'Weibull rank regression',
    n,
    failures,
    positions,
    of,
    shape,
    scale: Math.exp(middleX - middleY / shape),
    rSquared: (sxy * sxy) / (sxx * syy),
  };
}

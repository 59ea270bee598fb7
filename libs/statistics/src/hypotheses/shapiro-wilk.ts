import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { centred } from '../description/centred.js';
import { normalCdf, normalQuantile } from '../distributions/normal.js';
import { requireValues } from '../requirements.js';

export interface ShapiroWilk {
  method: 'Shapiro-Wilk';
  n: number;
  /** Between 0 and 1; near 1 where the values lie as normal ones do. */
  w: number;
  p: number;
}

/** Up to here the approximation was fitted to simulations. */
const MOST = 5000;

/** The algorithm's answer where its approximation ends, beyond which hardly a normal sample of this size can lie. */
const LEAST_SIGNIFICANCE = 1e-99;

// Royston (1995), algorithm AS R94: coefficients in ascending powers.
const LAST_WEIGHT = [0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056];
const LAST_BUT_ONE = [0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633];
const SMALL = {
  gamma: [-2.273, 0.459],
  mean: [0.544, -0.39978, 0.025054, -6.714e-4],
  logSd: [1.3822, -0.77857, 0.062767, -0.0020322],
};
const LARGE = { mean: [-1.5861, -0.31082, -0.083751, 0.0038915], logSd: [-0.4803, -0.082676, 0.0030302] };

/**
 * Do these values look normal? W compares the square of the scatter that normal values in this order
 * would have with the scatter there is:
 *
 *     w = (sum a_i x_(i))^2 / sum (x_i - m)^2
 *
 * with weights a_i made from the expected places of ordered normal values, by polynomials in 1 / sqrt n
 * for the two outermost. p by the normal score of ln (1 - w), its mean and scatter by polynomials in n
 * or ln n; for 3 values p is exact.
 *
 * Hypothesis: the values are a random sample of a normal distribution. n from 3 to 5000.
 *
 * Source: Royston (1995), Appl. Statist. 44, 547-551 (algorithm AS R94), after Shapiro and Wilk (1965),
 * Biometrika 52, 591-611.
 */
export function shapiroWilk(values: readonly number[]): ShapiroWilk | NotEvaluated {
  requireValues('shapiroWilk', 'values', values);
  const n = values.length;
  if (n < 3) return notEvaluated(`${n} values always look normal`, 'at least 3 values are given');
  if (n > MOST)
    return notEvaluated(`the test is known for ${MOST} values at most, and ${n} were given`, 'fewer values are given');
  const { deviations, squares } = centred(values.toSorted((a, b) => a - b));
  if (squares === 0) return notEvaluated('all values are the same number', 'values are read finely enough to differ');

  // 1 - w is taken from the unexplained part of each value, so that it keeps its digits where w is nearly 1.
  const weights = weightsFor(n);
  const slope = weights.reduce((sum, weight, index) => sum + weight * (deviations[index] as number), 0);
  const unexplained = deviations.reduce((sum, deviation, index) => {
    const rest = deviation - slope * (weights[index] as number);
    return sum + rest * rest;
  }, 0);
  const short = Math.max(unexplained / squares, Number.MIN_VALUE);
  return { method: 'Shapiro-Wilk', n, w: 1 - short, p: significance(short, n) };
}

/** The weights of the ordered values, of unit length; the lower half the upper with its sign turned. */
function weightsFor(n: number): number[] {
  if (n === 3) return [-Math.SQRT1_2, 0, Math.SQRT1_2];
  const half = Math.floor(n / 2);
  const scores = Array.from({ length: half }, (_, index) => normalQuantile((index + 1 - 0.375) / (n + 0.25)));
  const squares = 2 * scores.reduce((sum, score) => sum + score * score, 0);
  const [outer, inner] = scores as [number, number];
  const root = 1 / Math.sqrt(n);
  const length = Math.sqrt(squares);
  const last = polynomial(LAST_WEIGHT, root) - outer / length;
  const fitted = n > 5 ? [last, polynomial(LAST_BUT_ONE, root) - inner / length] : [last];
  const restOfScores = squares - 2 * scores.slice(0, fitted.length).reduce((sum, score) => sum + score * score, 0);
  const restOfWeights = 1 - 2 * fitted.reduce((sum, weight) => sum + weight * weight, 0);
  const factor = Math.sqrt(restOfScores / restOfWeights);
  const upper = scores.map((score, index) => fitted[index] ?? -score / factor);
  return [...upper.map((weight) => -weight), ...(n % 2 === 1 ? [0] : []), ...upper.toReversed()];
}

function significance(short: number, n: number): number {
  if (n === 3) return Math.max(0, (6 / Math.PI) * (Math.asin(Math.sqrt(1 - short)) - Math.asin(Math.sqrt(0.75))));
  const logarithm = Math.log(short);
  if (n <= 11) {
    const gamma = polynomial(SMALL.gamma, n);
    if (logarithm >= gamma) return LEAST_SIGNIFICANCE;
    return above(-Math.log(gamma - logarithm), polynomial(SMALL.mean, n), polynomial(SMALL.logSd, n));
  }
  const size = Math.log(n);
  return above(logarithm, polynomial(LARGE.mean, size), polynomial(LARGE.logSd, size));
}

function above(value: number, mean: number, logSd: number): number {
  return normalCdf((mean - value) / Math.exp(logSd));
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

import gammaln from '@stdlib/math-base-special-gammaln';
import { normalCdf, normalQuantile } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { requireFraction, requirePositive } from '../requirements.js';

/** The families in which mean and scatter say what share lies below a limit. */
export type FittedDistribution = 'normal' | 'lognormal' | 'weibull';

/**
 * What share of a population with this mean and coefficient of variation lies below the limit?
 *
 *     normal      Phi(-(1 - 1/m) / cv)
 *     lognormal   Phi(-(ln m - s^2/2) / s),  s^2 = ln(1 + cv^2)
 *     weibull     1 - exp(-(Gamma(1 + 1/b) / m)^b),  b the shape of this cv
 *
 * with m the mean over the limit. Source: moments of the three, Johnson, Kotz and Balakrishnan (1994), Continuous
 * Univariate Distributions, vol. 1, chapters 13, 14 and 21 (from memory).
 */
export function shareBelow(distribution: FittedDistribution, meanOverLimit: number, cv: number): number {
  requirePositive('shareBelow', { meanOverLimit, cv });
  if (distribution === 'normal') return normalCdf(-(1 - 1 / meanOverLimit) / cv);
  if (distribution === 'lognormal') {
    const variance = Math.log1p(cv * cv);
    return normalCdf(-(Math.log(meanOverLimit) - variance / 2) / Math.sqrt(variance));
  }
  const shape = weibullShapeFor(cv);
  const limitOverScale = Math.exp(gammaln(1 + 1 / shape)) / meanOverLimit;
  return -Math.expm1(-(limitOverScale ** shape));
}

/** The shape of a Weibull distribution with this coefficient of variation: cv^2 + 1 = Gamma(1 + 2/b) / Gamma(1 + 1/b)^2. */
export function weibullShapeFor(cv: number): number {
  const aim = Math.log1p(cv * cv);
  // In x = ln(1 / b), where the difference of logarithms rises.
  const excess = (x: number) => gammaln(1 + 2 * Math.exp(x)) - 2 * gammaln(1 + Math.exp(x));
  const found = rootOfIncreasing(
    (x) => {
      const step = 1e-5;
      const [here, above, below] = [excess(x), excess(x + step), excess(x - step)].map(Math.log) as [
        number,
        number,
        number,
      ];
      return { value: here - Math.log(aim), slope: (above - below) / (2 * step) };
    },
    Math.log(cv / 1.2),
    0.5,
  );
  return Math.exp(-found);
}

/**
 * How far above the limit must the mean lie, as a multiple of it, for this share to lie below it? The inverse of
 * `shareBelow` in its mean; undefined where no mean is large enough, which a normal distribution of wide scatter has.
 */
export function meanOverLimitFor(distribution: FittedDistribution, share: number, cv: number): number | undefined {
  requireFraction('meanOverLimitFor', { share });
  requirePositive('meanOverLimitFor', { cv });
  if (distribution === 'normal') {
    const left = 1 + normalQuantile(share) * cv;
    return left > 0 ? 1 / left : undefined;
  }
  if (distribution === 'lognormal') {
    const variance = Math.log1p(cv * cv);
    return Math.exp(variance / 2 - normalQuantile(share) * Math.sqrt(variance));
  }
  const shape = weibullShapeFor(cv);
  return Math.exp(gammaln(1 + 1 / shape)) / (-Math.log1p(-share)) ** (1 / shape);
}

/** The least and the largest scatter asked about. */
const SCATTER = [0.001, 1] as const;

/**
 * How much may strengths scatter, as a coefficient of variation, for no more than this share to lie below the limit where
 * the mean lies so far above it? Undefined where even the largest scatter asked about (1) or not even the least (0.001)
 * is the answer. By halving; a share below a limit under the mean rises with the scatter up to there.
 */
export function scatterFor(distribution: FittedDistribution, share: number, meanOverLimit: number): number | undefined {
  requireFraction('scatterFor', { share });
  requirePositive('scatterFor', { meanOverLimit });
  let [enough, tooMuch]: [number, number] = [...SCATTER];
  if (shareBelow(distribution, meanOverLimit, enough) > share) return undefined;
  if (shareBelow(distribution, meanOverLimit, tooMuch) <= share) return undefined;
  while (tooMuch - enough > 1e-9) {
    const middle = (enough + tooMuch) / 2;
    if (shareBelow(distribution, meanOverLimit, middle) <= share) enough = middle;
    else tooMuch = middle;
  }
  return enough;
}

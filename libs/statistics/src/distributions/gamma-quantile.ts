import { rootOfIncreasing } from '../numerics/find-root.js';
import { requireFraction, requirePositive } from '../requirements.js';
import { gammaShare } from './gamma.js';
import { normalDensity, normalQuantile } from './normal.js';

/**
 * The value below which a gamma of this shape and scale 1 lies with probability p. Newton's method in the logarithm of
 * the value, on the normal score of the probability, from the cube of a normal number (Wilson and Hilferty 1931, Proc.
 * Nat. Acad. Sci. 17, 684-688) or, far down, from the leading term of the power series. About 1e-13 relative.
 */
export function gammaQuantile(p: number, shape: number): number {
  requireFraction('gammaQuantile', { p });
  requirePositive('gammaQuantile', { shape });
  const score = normalQuantile(p);
  const cube = 1 - 1 / (9 * shape) + score / (3 * Math.sqrt(shape));
  const from = cube > 0.3 ? Math.log(shape) + 3 * Math.log(cube) : (Math.log(p) + Math.log(shape)) / shape;
  const logarithm = rootOfIncreasing(
    (tried) => {
      const x = Math.exp(tried);
      const { below, above, density } = gammaShare(shape, x);
      const scoreHere = below < above ? normalQuantile(below) : -normalQuantile(above);
      return { value: scoreHere - score, slope: (density * x) / normalDensity(scoreHere) };
    },
    from,
    1 / Math.sqrt(shape),
  );
  return Math.exp(logarithm);
}

/** The value below which a chi-square of these degrees of freedom lies with probability p. */
export function chiSquareQuantile(p: number, degrees: number): number {
  return 2 * gammaQuantile(p, degrees / 2);
}

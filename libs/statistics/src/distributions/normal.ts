import erfc from '@stdlib/math-base-special-erfc';
import quantile from '@stdlib/stats-base-dists-normal-quantile';

const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Height of the standard normal density at z. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / SQRT_TWO_PI;
}

/** Share of a standard normal population below z; precise in relative terms far into the lower tail. */
export function normalCdf(z: number): number {
  return 0.5 * erfc(-z / Math.SQRT2);
}

/**
 * The value below which a share p of a standard normal population lies, 0 <= p <= 1 (infinite at the ends).
 *
 * The library's value is good to 2e-9 far in the tails; one step of Halley's method against the
 * distribution function brings it to the last digits.
 */
export function normalQuantile(p: number): number {
  const z = quantile(p, 0, 1);
  if ((p > 1e-3 && p < 1 - 1e-3) || !Number.isFinite(z)) return z;
  // Taken in the lower tail, where the distribution function keeps its relative precision.
  const tail = -Math.abs(z);
  const share = p < 0.5 ? p : 1 - p;
  const error = (normalCdf(tail) - share) / normalDensity(tail);
  const refined = tail - error / (1 + (tail * error) / 2);
  return p < 0.5 ? refined : -refined;
}

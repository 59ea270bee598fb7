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
 * The library's value loses digits in the tails (2e-9 off at p = 1e-10) and ends at about 1e-16; from
 * there the first terms of the asymptotic expansion serve as start (Abramowitz and Stegun 1972, 26.2.12).
 * Steps of Halley's method against the distribution function give the digits.
 */
export function normalQuantile(p: number): number {
  if (p > 1e-3 && p < 1 - 1e-3) return quantile(p, 0, 1);
  // Taken in the lower tail, where the distribution function keeps its relative precision.
  const share = p < 0.5 ? p : 1 - p;
  if (!(share > 0)) return quantile(p, 0, 1);
  const twiceLog = -2 * Math.log(share);
  let tail = share > 1e-10 ? quantile(share, 0, 1) : -Math.sqrt(twiceLog - Math.log(2 * Math.PI * twiceLog));
  for (let step = 0; step < 6; step++) {
    const error = (normalCdf(tail) - share) / normalDensity(tail);
    const move = error / (1 + (tail * error) / 2);
    tail -= move;
    if (Math.abs(move) < 1e-6) break;
  }
  return p < 0.5 ? tail : -tail;
}

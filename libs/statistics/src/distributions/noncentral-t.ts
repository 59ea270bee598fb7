import { rootOfIncreasing } from '../numerics/find-root.js';
import { requireFinite, requireFraction, requirePositive } from '../requirements.js';
import { isFar, noncentralTFar } from './noncentral-t-far.js';
import { noncentralTByQuadrature } from './noncentral-t-quadrature.js';
import { noncentralTBySeries, seriesServes } from './noncentral-t-series.js';
import { normalDensity, normalQuantile } from './normal.js';

/** The noncentral t distribution at one point. */
export interface NoncentralT {
  /** Probability of a smaller value. */
  below: number;
  /** Probability of a larger value. */
  above: number;
  density: number;
}

/**
 * The noncentral t distribution at t: that of (Z + shift) / sqrt(X / degrees), where Z is standard
 * normal and X an independent chi-square with `degrees` degrees of freedom (any number of at least 1).
 *
 * The finite series is exact and fast where it can be used; elsewhere, and in tails below 1e-6
 * where the series loses relative precision, the integral over the chi density is used, and far from
 * zero, where that would take ever more points, the one over the normal deviate.
 */
export function noncentralT(t: number, degrees: number, shift: number): NoncentralT {
  if (seriesServes(t, degrees, shift)) {
    const found = noncentralTBySeries(t, degrees, shift);
    if (found.below > 1e-6 && found.above > 1e-6) return found;
  }
  return isFar(t, degrees, shift) ? noncentralTFar(t, degrees, shift) : noncentralTByQuadrature(t, degrees, shift);
}

/** Probability that a noncentral t with these degrees of freedom and this shift is at most t. */
export function noncentralTCdf(t: number, degrees: number, shift: number): number {
  requireFinite('noncentralTCdf', { t, shift });
  requireDegrees('noncentralTCdf', degrees);
  return noncentralT(t, degrees, shift).below;
}

/**
 * The value below which a noncentral t lies with probability p. Accurate to about 1e-12 relative.
 *
 * Newton's method on the normal score of the probability, which is nearly straight in t, started
 * from the normal approximation of Jennett and Welch (1939), J. R. Statist. Soc. Suppl. 6, 80-88.
 */
export function noncentralTQuantile(p: number, degrees: number, shift: number): number {
  requireFraction('noncentralTQuantile', { p });
  requireFinite('noncentralTQuantile', { shift });
  requireDegrees('noncentralTQuantile', degrees);

  const score = normalQuantile(p);
  const from = jennettWelch(score, degrees, shift);
  return rootOfIncreasing(
    (t) => {
      const { below, above, density } = noncentralT(t, degrees, shift);
      const scoreHere = below < above ? normalQuantile(below) : -normalQuantile(above);
      // A probability of 0 has no score; an infinite one makes the search step outward or halve.
      return { value: scoreHere - score, slope: density / normalDensity(scoreHere) };
    },
    from,
    Math.sqrt(1 + (from * from) / (2 * degrees)),
  );
}

/** Where Z - t S falls below -shift with the score's probability, if S = sqrt(X / degrees) were normal. */
function jennettWelch(score: number, degrees: number, shift: number): number {
  const meanRoot = 1 - 1 / (4 * degrees);
  const variance = 1 / (2 * degrees);
  const denominator = meanRoot * meanRoot - score * score * variance;
  const discriminant = meanRoot * meanRoot + variance * (shift * shift - score * score);
  if (denominator < 0.1 || discriminant <= 0) return shift + score;
  return (shift * meanRoot + score * Math.sqrt(discriminant)) / denominator;
}

function requireDegrees(caller: string, degrees: number): void {
  requirePositive(caller, { degrees });
  if (degrees < 1) throw new RangeError(`${caller}: degrees must be at least 1; got ${degrees}.`);
}

import type { NoncentralT } from './noncentral-t.js';
import { normalCdf, normalDensity } from './normal.js';
import { owensT } from './owens-t.js';

const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);

/**
 * May the finite series be used here? It is exact for whole degrees of freedom; with t and shift on
 * the same side of zero every term is positive, so no digits cancel. Its first term must not
 * underflow, and its cost grows with the degrees of freedom.
 */
export function seriesServes(t: number, degrees: number, shift: number): boolean {
  return (
    Number.isInteger(degrees) &&
    degrees <= 1000 &&
    t !== 0 &&
    t * shift >= 0 &&
    Math.abs(shift) < 36 * Math.sqrt(1 + (t * t) / degrees)
  );
}

/**
 * The noncentral t distribution as a finite sum, for whole degrees of freedom f:
 *
 *     P(T <= t) = Phi(-d) + sqrt(2 pi) (M_0 + M_2 + ... + M_(f-2))                       f even
 *     P(T <= t) = Phi(-d sqrt B) + 2 T(d sqrt B, A) + 2 (M_1 + M_3 + ... + M_(f-2))      f odd
 *
 * with d the shift, A = t / sqrt f, B = f / (f + t^2), Phi the normal distribution function, T Owen's
 * function and M_k by a recursion of two terms. The density is f / t times the next term of the sum,
 * since it is the difference of the distribution functions at f + 2 and f.
 *
 * Source: Owen (1968), Technometrics 10, 445-478; Cooper (1968), Appl. Statist. 17, 193 (algorithm AS 5).
 */
export function noncentralTBySeries(t: number, degrees: number, shift: number): NoncentralT {
  if (t < 0) {
    const { below, above, density } = noncentralTBySeries(-t, degrees, -shift);
    return { below: above, above: below, density };
  }
  const a = t / Math.sqrt(degrees);
  const b = 1 / (1 + a * a);
  const reduced = shift * Math.sqrt(b);
  const slope = shift * a;
  const even = degrees % 2 === 0;

  let before = a * Math.sqrt(b) * normalDensity(reduced) * normalCdf(a * reduced);
  let last = b * (slope * before + (a / SQRT_TWO_PI) * normalDensity(shift));
  let sum = even ? before : degrees >= 3 ? last : 0;
  let multiplier = 1;
  for (let k = 2; k < degrees; k++) {
    if (k > 2) multiplier = 1 / ((k - 2) * multiplier);
    const term = ((k - 1) / k) * b * (multiplier * slope * last + before);
    before = last;
    last = term;
    if (k % 2 === degrees % 2) sum += term;
  }
  const next =
    degrees === 1
      ? last
      : ((degrees - 1) / degrees) *
        b *
        ((degrees === 2 ? 1 : 1 / ((degrees - 2) * multiplier)) * slope * last + before);

  const weight = even ? SQRT_TWO_PI : 2;
  const start = even ? normalCdf(-shift) : normalCdf(-reduced) + 2 * owensT(reduced, a);
  const below = Math.min(1, start + weight * sum);
  return { below, above: 1 - below, density: (degrees / t) * weight * next };
}

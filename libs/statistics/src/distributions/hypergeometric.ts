import { requireCount } from '../requirements.js';

/** A lot of `size` units, `marked` of which have some property; `drawn` are taken at random. */
export interface Draw {
  size: number;
  marked: number;
  drawn: number;
}

/**
 * Probability that at most `count` of the units drawn are marked.
 *
 *     P(X = k + 1) / P(X = k) = (marked - k)(drawn - k) / ((k + 1)(size - marked - drawn + k + 1))
 *
 * Terms are built by this ratio outward from the likeliest count and divided by their own sum: no
 * factorial of a large lot is formed, so no digits are lost (library values are good to about 2e-10
 * for a lot of 10^6, these to about 1e-14).
 *
 * Source: Johnson, Kemp and Kotz (2005), Univariate Discrete Distributions, 3rd ed., section 6.2.
 */
export function hypergeometricCdf(count: number, { size, marked, drawn }: Draw): number {
  requireCount('hypergeometricCdf', { size, marked, drawn });
  if (marked > size || drawn > size)
    throw new RangeError(`hypergeometricCdf: a lot of ${size} cannot have ${marked} marked or ${drawn} drawn.`);
  const least = Math.max(0, drawn + marked - size);
  const most = Math.min(drawn, marked);
  if (count < least) return 0;
  if (count >= most) return 1;

  const likeliest = Math.min(most, Math.max(least, Math.floor(((drawn + 1) * (marked + 1)) / (size + 2))));
  const ratioUp = (k: number) => ((marked - k) * (drawn - k)) / ((k + 1) * (size - marked - drawn + k + 1));
  let below = likeliest <= count ? 1 : 0;
  let above = 1 - below;
  let term = 1;
  for (let k = likeliest; k < most && term > 0; k++) {
    term *= ratioUp(k);
    if (k + 1 <= count) below += term;
    else above += term;
  }
  term = 1;
  for (let k = likeliest; k > least && term > 0; k--) {
    term /= ratioUp(k - 1);
    if (k - 1 <= count) below += term;
    else above += term;
  }
  return below / (below + above);
}

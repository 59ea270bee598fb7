import gammainc from '@stdlib/math-base-special-gammainc';
import gammaln from '@stdlib/math-base-special-gammaln';

/** A gamma distribution of scale 1 at one point. */
export interface GammaShare {
  below: number;
  above: number;
  density: number;
}

/**
 * The gamma distribution with a whole number as shape, at x >= 0. For small shapes the finite sum
 *
 *     above = exp(-x) (1 + x + x^2 / 2! + ... + x^(shape - 1) / (shape - 1)!)
 *
 * is several times faster than the general function; its complement loses relative digits where
 * little lies below, so there and for larger shapes the general function is used.
 *
 * Source: Johnson, Kotz and Balakrishnan (1994), Continuous Univariate Distributions 1, section 17.2.
 */
export function gammaShare(shape: number, x: number): GammaShare {
  if (shape <= 60 && x < 600) {
    let term = Math.exp(-x);
    let above = term;
    for (let k = 1; k < shape; k++) {
      term *= x / k;
      above += term;
    }
    if (above < 0.9) return { below: 1 - above, above, density: term };
  }
  if (x === 0) return { below: 0, above: 1, density: shape === 1 ? 1 : 0 };
  if (!(x < Number.POSITIVE_INFINITY)) return { below: 1, above: 0, density: 0 };
  return {
    below: gammainc(x, shape, true, false),
    above: gammainc(x, shape, true, true),
    density: Math.exp((shape - 1) * Math.log(x) - x - gammaln(shape)),
  };
}

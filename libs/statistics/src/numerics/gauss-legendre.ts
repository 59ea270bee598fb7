/** Points and weights for the integral of a smooth function over 0 to 1. */
export interface Quadrature {
  points: Float64Array;
  weights: Float64Array;
}

/**
 * The Gauss-Legendre rule of the given order on the interval 0 to 1: exact for polynomials up to
 * degree 2 * order - 1. Points are the roots of the Legendre polynomial, found by Newton's method.
 *
 * Source: Davis and Rabinowitz (1984), Methods of Numerical Integration, 2nd ed., section 2.7.
 */
export function gaussLegendre(order: number): Quadrature {
  const points = new Float64Array(order);
  const weights = new Float64Array(order);
  for (let index = 0; index < order; index++) {
    let root = Math.cos((Math.PI * (index + 0.75)) / (order + 0.5));
    let slope = 0;
    for (let step = 0; step < 10; step++) {
      let value = 1;
      let before = 0;
      for (let degree = 0; degree < order; degree++)
        [value, before] = [((2 * degree + 1) * root * value - degree * before) / (degree + 1), value];
      slope = (order * (root * value - before)) / (root * root - 1);
      root -= value / slope;
    }
    points[index] = (1 - root) / 2;
    weights[index] = 1 / ((1 - root * root) * slope * slope);
  }
  return { points, weights };
}

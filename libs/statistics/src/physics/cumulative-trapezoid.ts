/**
 * The integral of y over x up to each point, by trapezoids: 0 at the first point, y's unit times x's.
 *
 *     I_i = I_(i−1) + (x_i − x_(i−1)) (y_i + y_(i−1)) / 2
 *
 * Source: Abramowitz and Stegun (1964), 25.4.1.
 */
export function cumulativeTrapezoid(x: ArrayLike<number>, y: ArrayLike<number>): Float64Array {
  if (x.length !== y.length)
    throw new RangeError(`cumulativeTrapezoid: x and y must be of one length; got ${x.length} and ${y.length}.`);
  const integral = new Float64Array(x.length);
  for (let i = 1; i < x.length; i++) {
    const step = (x[i] as number) - (x[i - 1] as number);
    integral[i] = (integral[i - 1] as number) + (step * ((y[i] as number) + (y[i - 1] as number))) / 2;
  }
  return integral;
}

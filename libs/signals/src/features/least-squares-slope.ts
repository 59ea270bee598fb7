/**
 * The slope of the straight line through the points `from` up to but not with `to` that leaves the smallest sum of
 * squares; values' unit per unit of x. Needs two points with different x.
 *
 *     slope = sum (x − mean x)(y − mean y) / sum (x − mean x)²
 */
export function leastSquaresSlope(x: Float64Array, y: Float64Array, from = 0, to = x.length): number {
  const n = to - from;
  if (n < 2) throw new RangeError(`leastSquaresSlope: needs at least 2 points; got ${n}.`);
  let [meanX, meanY] = [0, 0];
  for (let i = from; i < to; i++) {
    meanX += (x[i] as number) / n;
    meanY += (y[i] as number) / n;
  }
  let [across, along] = [0, 0];
  for (let i = from; i < to; i++) {
    const dx = (x[i] as number) - meanX;
    across += dx * ((y[i] as number) - meanY);
    along += dx * dx;
  }
  return across / along;
}

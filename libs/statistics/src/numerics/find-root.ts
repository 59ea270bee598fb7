import { NoConvergence } from './no-convergence.js';

/** A function at one point: its value, and how fast it changes there. */
export interface ValueAndSlope {
  value: number;
  slope: number;
}

/**
 * Where does an increasing function pass through zero? Newton's method, kept inside the bracket
 * that the signs seen so far leave open; where a step leaves the bracket it is halved instead, and
 * while one side is still open the search walks outward by doubling steps. A search that is slow to
 * settle halves its bracket, or walks outward, every other time, so that it ends.
 *
 * `start` and `stride` set where and how boldly the search begins. The root is taken when the next
 * step is below `tolerance` relative to the size of the root (or of `stride`, near zero); the step
 * is still made, so that the error left is of the order of its square.
 */
export function rootOfIncreasing(
  at: (x: number) => ValueAndSlope,
  start: number,
  stride: number,
  { tolerance = 1e-8, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = {},
): number {
  let low = from;
  let high = to;
  let x = start;
  let outward = stride;
  for (let evaluation = 0; evaluation < 200; evaluation++) {
    const { value, slope } = at(x);
    if (value === 0) return x;
    if (value < 0) low = x;
    else high = x;

    const wanted = x - value / slope;
    const usable = slope > 0 && wanted > low && wanted < high;
    if (usable && Math.abs(wanted - x) <= tolerance * Math.max(Math.abs(x), stride)) return wanted;

    const closed = Number.isFinite(low) && Number.isFinite(high);
    const slow = evaluation > 12 && evaluation % 2 === 0;
    if (usable && !slow && Math.abs(wanted - x) <= 8 * outward) x = wanted;
    else if (closed) {
      const middle = low + (high - low) / 2;
      if (middle <= low || middle >= high) return middle;
      x = middle;
    } else {
      x += value < 0 ? outward : -outward;
      outward *= 2;
    }
  }
  throw new NoConvergence(`no root found within 200 evaluations, started at ${start}`);
}

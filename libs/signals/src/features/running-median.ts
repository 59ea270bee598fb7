/**
 * The median of each value and its neighbours: a single spike, or up to (length − 1) / 2 together, leaves no trace.
 * `length` is odd; 1 changes nothing. Towards the ends the window shrinks on both sides alike, so that the first and the
 * last value stay as they are and nothing is shifted.
 *
 * On a straight rise that breaks off, the last (length − 1) / 2 samples before the break are pulled down: by at most
 * that many sample periods' worth of rise.
 *
 * Source: Tukey (1977), Exploratory Data Analysis, chapter 7 (running medians).
 */
export function runningMedian(values: Float64Array, length: number): Float64Array {
  if (!Number.isInteger(length) || length < 1 || length % 2 === 0)
    throw new RangeError(`runningMedian: length must be odd and at least 1; got ${length}.`);
  const half = (length - 1) / 2;
  const out = new Float64Array(values.length);
  // The values in view, in order: each step takes in what comes into view and drops what leaves it.
  const window = new Float64Array(length);
  let [count, first, last] = [0, 0, -1];
  for (let i = 0; i < values.length; i++) {
    const reach = Math.min(half, i, values.length - 1 - i);
    while (first < i - reach) remove(window, count--, values[first++] as number);
    while (last < i + reach) insert(window, count++, values[++last] as number);
    out[i] = window[reach] as number;
  }
  return out;
}

/** Puts a value into the first `count`, which stand in order. */
function insert(window: Float64Array, count: number, value: number): void {
  let at = count;
  while (at > 0 && (window[at - 1] as number) > value) {
    window[at] = window[at - 1] as number;
    at--;
  }
  window[at] = value;
}

/** Takes one that is among the first `count` out of them. */
function remove(window: Float64Array, count: number, value: number): void {
  let [low, high] = [0, count - 1];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((window[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  window.copyWithin(low, low + 1, count);
}

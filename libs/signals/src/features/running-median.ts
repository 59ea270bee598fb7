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
  const window = new Float64Array(length);
  for (let i = 0; i < values.length; i++) {
    const reach = Math.min(half, i, values.length - 1 - i);
    // Insertion keeps the few values in order as they come.
    let count = 0;
    for (let j = i - reach; j <= i + reach; j++) {
      const value = values[j] as number;
      let at = count++;
      while (at > 0 && (window[at - 1] as number) > value) {
        window[at] = window[at - 1] as number;
        at--;
      }
      window[at] = value;
    }
    out[i] = window[reach] as number;
  }
  return out;
}

/** A long record drawn small: the smallest and largest value within each slice of time. */
export interface Outline {
  time: number[];
  lowest: number[];
  highest: number[];
}

/**
 * The outline of a record in at most `slices` equal slices of time. No spike is lost: every value lies between the
 * lowest and the highest of its slice. Each slice is placed at its middle; empty ones are left out.
 */
export function outlineOf(time: ArrayLike<number>, values: ArrayLike<number>, slices: number): Outline {
  if (time.length !== values.length)
    throw new Error(`A record has as many times as values; got ${time.length} times and ${values.length} values.`);
  if (!Number.isInteger(slices) || slices < 1)
    throw new Error(`The number of slices is a whole number from 1; got ${slices}.`);
  const first = time[0];
  const last = time[time.length - 1];
  if (first === undefined || last === undefined) return { time: [], lowest: [], highest: [] };

  const lowest = new Array<number>(slices).fill(Number.POSITIVE_INFINITY);
  const highest = new Array<number>(slices).fill(Number.NEGATIVE_INFINITY);
  const width = (last - first) / slices;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i] as number;
    const slice = width > 0 ? Math.min(slices - 1, Math.floor(((time[i] as number) - first) / width)) : 0;
    lowest[slice] = Math.min(lowest[slice] as number, value);
    highest[slice] = Math.max(highest[slice] as number, value);
  }
  const filled = lowest.flatMap((low, slice) => (low === Number.POSITIVE_INFINITY ? [] : [slice]));
  return {
    time: filled.map((slice) => first + (slice + 0.5) * width),
    lowest: filled.map((slice) => lowest[slice] as number),
    highest: filled.map((slice) => highest[slice] as number),
  };
}

/** A trace thinned for drawing: the smallest and the largest sample of each stretch, in the order they were taken. */
export interface TraceOutline {
  time: Float64Array;
  values: Float64Array;
}

/**
 * At most 2 · `buckets` points that look like the whole trace at that width: no peak is lost, because each stretch of
 * time gives its smallest and its largest sample. A trace that is short enough is given back as it is.
 */
export function traceOutline(
  { time, values }: { time: Float64Array; values: Float64Array },
  buckets: number,
): TraceOutline {
  if (!Number.isSafeInteger(buckets) || buckets < 1)
    throw new RangeError(`traceOutline: buckets must be a whole number of at least 1; got ${buckets}.`);
  const n = values.length;
  if (n <= 2 * buckets) return { time: time.slice(), values: values.slice() };

  const outTime = new Float64Array(2 * buckets);
  const outValues = new Float64Array(2 * buckets);
  for (let bucket = 0; bucket < buckets; bucket++) {
    const start = Math.floor((bucket * n) / buckets);
    const end = Math.floor(((bucket + 1) * n) / buckets);
    let [low, high] = [start, start];
    for (let i = start + 1; i < end; i++) {
      if ((values[i] as number) < (values[low] as number)) low = i;
      if ((values[i] as number) > (values[high] as number)) high = i;
    }
    [Math.min(low, high), Math.max(low, high)].forEach((index, place) => {
      outTime[2 * bucket + place] = time[index] as number;
      outValues[2 * bucket + place] = values[index] as number;
    });
  }
  return { time: outTime, values: outValues };
}

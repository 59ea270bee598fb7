import type { Trace } from '@breakbook/lab';
import { firstAt } from './vented-zero.js';

/** A trace thinned for drawing: the smallest and the largest sample of each stretch, in the order they were taken. */
export interface TraceOutline {
  time: Float64Array;
  values: Float64Array;
}

/**
 * At most 2 · `buckets` points that look like the trace at that width, or like the stretch of it that is to be shown: no
 * peak is lost, because each stretch of time gives its smallest and its largest sample. What is short enough is given
 * back as it is.
 */
export function traceOutline(trace: Pick<Trace, 'time' | 'values' | 'shown'>, buckets: number): TraceOutline {
  if (!Number.isSafeInteger(buckets) || buckets < 1)
    throw new RangeError(`traceOutline: buckets must be a whole number of at least 1; got ${buckets}.`);
  const { time, values } = shownPart(trace);
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

function shownPart({ time, values, shown }: Pick<Trace, 'time' | 'values' | 'shown'>): TraceOutline {
  if (!shown) return { time, values };
  const [from, to] = [firstAt(time, shown.from), firstAt(time, shown.to)];
  return { time: time.subarray(from, to), values: values.subarray(from, to) };
}

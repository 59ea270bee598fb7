import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { median, medianAbsoluteDeviation } from 'simple-statistics';

/** Where the sensor stands with the line open to the room. */
export interface VentedZero {
  /** Median reading, to be taken off all others. */
  zero: number;
  /** Standard deviation of the readings about it, from their median absolute deviation. */
  noise: number;
  samples: number;
  from: number;
  to: number;
}

/** Readings that stand above this share of the peak are not those of a vented line. Common practice, no source. */
export const VENTED_SHARE = 0.05;

const FEWEST = 3;
/** Ratio of standard deviation to median absolute deviation in a normal population: 1 / Φ⁻¹(3/4). */
const NORMAL_RATIO = 1.482602218505602;

/** The zero of the samples between two times. The median, because one spike must not move it. */
export function ventedZero(
  time: Float64Array,
  values: Float64Array,
  from: number,
  to: number,
): VentedZero | NotEvaluated {
  const readings = Array.from(values.subarray(firstAt(time, from), firstAt(time, to)));
  if (readings.length < FEWEST)
    return notEvaluated(
      `only ${readings.length} samples lie in the vented part of the record`,
      `at least ${FEWEST} samples are recorded with the line vented`,
    );
  return {
    zero: median(readings),
    noise: NORMAL_RATIO * medianAbsoluteDeviation(readings),
    samples: readings.length,
    from,
    to,
  };
}

/** Index of the first sample at or after a time, by halving; the length of the record where there is none. */
export function firstAt(time: Float64Array, at: number): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time[middle] as number) < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

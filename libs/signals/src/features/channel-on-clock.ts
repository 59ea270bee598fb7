import { median } from 'simple-statistics';

/** The readings of a channel, on a clock of its own. */
export interface ChannelReadings {
  channel: string;
  time: Float64Array;
  values: Float64Array;
}

/**
 * What does this channel read at the times of another? On the straight line between two of its readings, where they are no
 * further apart than `periods` of its usual steps; NaN where that is not known. `onto` increases.
 */
export function onClock({ time, values }: ChannelReadings, onto: Float64Array, periods: number): Float64Array {
  const read = new Float64Array(onto.length).fill(Number.NaN);
  if (time === onto) return values;
  if (time.length < 2) return read;
  const longest = periods * usualStep(time);
  let right = 1;
  for (let i = 0; i < onto.length; i++) {
    const at = onto[i] as number;
    while (right < time.length - 1 && (time[right] as number) < at) right++;
    const [from, to] = [time[right - 1] as number, time[right] as number];
    const [before, after] = [values[right - 1] as number, values[right] as number];
    // A reading stands for its own moment, whatever gap lies beside it.
    if (at === from) read[i] = before;
    else if (at === to) read[i] = after;
    else if (at > from && at < to && to - from <= longest)
      read[i] = before + ((after - before) * (at - from)) / (to - from);
  }
  return read;
}

function usualStep(time: Float64Array): number {
  return median(Array.from({ length: time.length - 1 }, (_, i) => (time[i + 1] as number) - (time[i] as number)));
}

/**
 * Stretches of a trace, each by its smallest and its largest sample: where they lie, when they were taken, what they
 * read. A stretch without any reading has NaN in both; it is passed over wherever a trace is drawn.
 */
export interface Stretches {
  /** Sample numbers, counted from the first sample of the trace. */
  lowAt: Uint32Array;
  highAt: Uint32Array;
  lowTime: Float64Array;
  highTime: Float64Array;
  low: Float64Array;
  high: Float64Array;
}

/** Bytes of one stretch as stored. */
const ENTRY = 40;

export function noStretches(count: number): Stretches {
  return {
    lowAt: new Uint32Array(count),
    highAt: new Uint32Array(count),
    lowTime: new Float64Array(count),
    highTime: new Float64Array(count),
    low: new Float64Array(count).fill(Number.NaN),
    high: new Float64Array(count).fill(Number.NaN),
  };
}

/** Every `size` samples of a piece of a trace as one stretch; the last may be shorter. `first` numbers its first sample. */
export function stretchesOf(time: Float64Array, values: Float64Array, first: number, size: number): Stretches {
  const all = noStretches(Math.ceil(values.length / size));
  for (let stretch = 0, start = 0; start < values.length; stretch++, start += size) {
    const end = Math.min(start + size, values.length);
    let [lowAt, highAt] = [start, start];
    let [low, high] = [Number.NaN, Number.NaN];
    for (let i = start; i < end; i++) {
      const value = values[i] as number;
      // Written so that the first reading of a stretch takes the place of NaN.
      if (!(value >= low) && !Number.isNaN(value)) [low, lowAt] = [value, i];
      if (!(value <= high) && !Number.isNaN(value)) [high, highAt] = [value, i];
    }
    put(all, stretch, {
      lowAt: first + lowAt,
      highAt: first + highAt,
      lowTime: time[lowAt] as number,
      highTime: time[highAt] as number,
      low,
      high,
    });
  }
  return all;
}

/** The same trace in stretches `by` times as long. */
export function widened(fine: Stretches, by: number): Stretches {
  const count = Math.ceil(fine.low.length / by);
  const all = noStretches(count);
  for (let stretch = 0; stretch < count; stretch++)
    put(all, stretch, merged(fine, by * stretch, Math.min(by * (stretch + 1), fine.low.length)));
  return all;
}

export interface Stretch {
  lowAt: number;
  highAt: number;
  lowTime: number;
  highTime: number;
  low: number;
  high: number;
}

/** Several stretches in a row as one. */
export function merged(all: Stretches, from: number, to: number): Stretch {
  let [lowest, highest] = [from, from];
  for (let i = from + 1; i < to; i++) {
    const [low, high] = [all.low[i] as number, all.high[i] as number];
    if (!(low >= (all.low[lowest] as number)) && !Number.isNaN(low)) lowest = i;
    if (!(high <= (all.high[highest] as number)) && !Number.isNaN(high)) highest = i;
  }
  return {
    lowAt: all.lowAt[lowest] as number,
    highAt: all.highAt[highest] as number,
    lowTime: all.lowTime[lowest] as number,
    highTime: all.highTime[highest] as number,
    low: all.low[lowest] as number,
    high: all.high[highest] as number,
  };
}

function put(all: Stretches, at: number, one: Stretch): void {
  all.lowAt[at] = one.lowAt;
  all.highAt[at] = one.highAt;
  all.lowTime[at] = one.lowTime;
  all.highTime[at] = one.highTime;
  all.low[at] = one.low;
  all.high[at] = one.high;
}

/** One after another. */
export function joined(parts: readonly Stretches[]): Stretches {
  const all = noStretches(parts.reduce((sum, { low }) => sum + low.length, 0));
  let at = 0;
  for (const part of parts) {
    for (const name of ['lowAt', 'highAt', 'lowTime', 'highTime', 'low', 'high'] as const)
      all[name].set(part[name], at);
    at += part.low.length;
  }
  return all;
}

/** As stored, little endian: all `lowTime`, then `highTime`, `low`, `high` (binary64), `lowAt`, `highAt` (unsigned, 32 bits). */
export function writeStretches(all: Stretches): Uint8Array {
  const count = all.low.length;
  const bytes = new Uint8Array(ENTRY * count);
  let at = 0;
  for (const column of [all.lowTime, all.highTime, all.low, all.high, all.lowAt, all.highAt]) {
    bytes.set(new Uint8Array(column.buffer, column.byteOffset, column.byteLength), at);
    at += column.byteLength;
  }
  return bytes;
}

export function readStretches(bytes: Uint8Array): Stretches {
  const count = bytes.length / ENTRY;
  if (!Number.isInteger(count))
    throw new Error(`readStretches: ${bytes.length} bytes are no whole number of stretches.`);
  const own = bytes.slice().buffer;
  const doubles = (place: number) => new Float64Array(own, 8 * count * place, count);
  const whole = (place: number) => new Uint32Array(own, 32 * count + 4 * count * place, count);
  return {
    lowTime: doubles(0),
    highTime: doubles(1),
    low: doubles(2),
    high: doubles(3),
    lowAt: whole(0),
    highAt: whole(1),
  };
}

import type { TimeSteps } from '../files/time-steps.js';

/** One channel of a file as written: a reading for each row, none where the row has a token for "no reading". */
export interface ChannelRows {
  channel: string;
  values: Float64Array;
  required: boolean;
  /** Seconds between two readings, where it is sampled more slowly than the file has rows. */
  every?: number;
}

/** The rows of a file that make up the record, and what each channel has on them. */
export interface RecordRows {
  /** Row of the file for each sample of the record. */
  rows: Uint32Array;
  time: Float64Array;
  /** Channels with a value on each sample. */
  values: Map<string, Float64Array>;
  /** Channels that lack readings in some row: their own readings, on a clock of their own. */
  own: Map<string, { time: Float64Array; values: Float64Array }>;
  /** What is missing before the first sample and after the last. */
  missing: { before: number; after: number };
}

/** A slow channel is drawn straight from reading to reading while none was left out. Common practice, no source. */
const NONE_LEFT_OUT = 1.5;

/**
 * Which rows can be judged? Those where every channel that the run is judged by has a reading: a row without one is left
 * out of the record, so that a long stretch of them is a gap in it. A channel declared slow counts as read between two
 * of its readings, on the straight line between them, while they are no further apart than it is sampled. Any other
 * channel that lacks a reading somewhere is drawn and not judged. No reading at all is a channel that was not recorded.
 *
 * `time` in seconds; `judged` names the channels that must have a reading.
 */
export function recordRows(
  time: Float64Array,
  channels: readonly ChannelRows[],
  judged: readonly string[],
): RecordRows {
  const own: RecordRows['own'] = new Map();
  const filled = new Map<string, Float64Array>();
  const deciding: Float64Array[] = [];
  for (const { channel, values, required, every } of channels) {
    if (!values.some(Number.isNaN)) {
      filled.set(channel, values);
      continue;
    }
    const read = indicesWhere(values.length, (row) => !Number.isNaN(values[row]));
    own.set(channel, { time: picked(time, read), values: picked(values, read) });
    const bridged = every === undefined ? values : between(time, values, read, every * NONE_LEFT_OUT);
    filled.set(channel, bridged);
    if (judged.includes(channel) && (required || read.length > 0)) deciding.push(bridged);
  }

  const rows = indicesWhere(time.length, (row) => deciding.every((values) => !Number.isNaN(values[row])));
  const kept = deciding.length === 0 ? time : picked(time, rows);
  const values = new Map<string, Float64Array>();
  for (const [channel, all] of filled) {
    const on = deciding.length === 0 ? all : picked(all, rows);
    if (!on.some(Number.isNaN)) values.set(channel, on);
  }
  return {
    rows,
    time: kept,
    values,
    own,
    missing: {
      before: (kept[0] ?? 0) - (time[0] ?? 0),
      after: (time.at(-1) ?? 0) - (kept.at(-1) ?? 0),
    },
  };
}

/** The steps of a record whose first or last readings are missing: such a stretch is a gap at its edge. */
export function withMissingEnds(steps: TimeSteps, { time, missing }: RecordRows, longest: number): TimeSteps {
  const [first, last] = [time[0] ?? 0, time.at(-1) ?? 0];
  return {
    ...steps,
    gaps: [
      ...(missing.before > longest ? [{ after: 0, from: first - missing.before, to: first }] : []),
      ...steps.gaps,
      ...(missing.after > longest ? [{ after: time.length - 1, from: last, to: last + missing.after }] : []),
    ],
  };
}

function between(time: Float64Array, values: Float64Array, read: Uint32Array, longest: number): Float64Array {
  const bridged = values.slice();
  for (let i = 1; i < read.length; i++) {
    const [left, right] = [read[i - 1] as number, read[i] as number];
    const [from, to] = [time[left] as number, time[right] as number];
    if (to - from > longest) continue;
    const slope = ((values[right] as number) - (values[left] as number)) / (to - from);
    for (let row = left + 1; row < right; row++)
      bridged[row] = (values[left] as number) + slope * ((time[row] as number) - from);
  }
  return bridged;
}

function indicesWhere(length: number, holds: (index: number) => boolean): Uint32Array {
  const found = new Uint32Array(length);
  let count = 0;
  for (let index = 0; index < length; index++) if (holds(index)) found[count++] = index;
  return found.slice(0, count);
}

function picked(values: Float64Array, indices: Uint32Array): Float64Array {
  return Float64Array.from(indices, (index) => values[index] as number);
}

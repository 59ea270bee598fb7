import { joined, merged, type Stretches, stretchesOf } from './stretches.js';
import { type BlockSpan, LEVELS, levelIn, partOf, samplesOf, type TraceBlock } from './trace-blocks.js';

/** Where the blocks of a trace are kept: a database, a file, memory. */
export interface BlockSource {
  /** All blocks, in order. */
  spans: readonly BlockSpan[];
  /** Stored samples of these blocks, by their places in `spans`. */
  samples(places: readonly number[]): Promise<Pick<TraceBlock, 'time' | 'values'>[]>;
  /** Stored stretches of these blocks. */
  stretches(places: readonly number[], part: 'fine' | 'coarse'): Promise<Uint8Array[]>;
}

/** Which part of a trace is drawn, in seconds, both ends with it; and of how many points at most. */
export interface WindowAsked {
  from: number;
  to: number;
  points: number;
}

export interface TraceWindow {
  /** How many samples the trace has in this window. */
  samples: number;
  /** Are the points all of them? */
  whole: boolean;
  time: Float64Array;
  values: Float64Array;
}

type Samples = ReturnType<typeof samplesOf>;
/** When, and what. */
type Point = [number, number];

/**
 * What does a trace look like between two moments? Every sample where they are few; else at most `points` of them: the
 * window is cut into stretches, and each gives its smallest and its largest sample in the order they were taken. So no
 * peak is lost at any width, and what is read from storage grows with the points, not with the samples.
 *
 * A sample without a reading (NaN) is not among the points.
 */
export async function traceWindow(source: BlockSource, { from, to, points }: WindowAsked): Promise<TraceWindow> {
  if (!(from <= to)) throw new RangeError(`traceWindow: from must not lie after to; got ${from} and ${to}.`);
  if (!Number.isSafeInteger(points) || points < 2)
    throw new RangeError(`traceWindow: points must be a whole number of at least 2; got ${points}.`);
  const { spans } = source;
  const places = spans.flatMap((span, place) => (span.from <= to && span.to >= from ? [place] : []));
  const [firstPlace, lastPlace] = [places[0], places.at(-1)];
  if (firstPlace === undefined || lastPlace === undefined) return drawn(0, [], []);

  const read = new Map<number, Samples>();
  const load = async (wanted: readonly number[]) => {
    const missing = wanted.filter((place) => !read.has(place));
    const stored = await source.samples(missing);
    for (const [index, place] of missing.entries()) read.set(place, samplesOf(stored[index] as TraceBlock));
  };
  const at = (place: number) => spans[place] as BlockSpan;
  const cut = (place: number) => (at(place).from < from || at(place).to > to ? [place] : []);
  await load([...new Set([...cut(firstPlace), ...cut(lastPlace)])]);

  /** The samples of a block that lie in the window, by their places within it. */
  const within = (place: number): [number, number] => {
    const own = read.get(place);
    return own ? [countBelow(own.time, from, false), countBelow(own.time, to, true)] : [0, at(place).samples];
  };
  const samples = places.reduce((sum, place) => sum + within(place)[1] - within(place)[0], 0);
  const perStretch = samples / Math.floor(points / 2);
  const level = LEVELS.findLastIndex((size) => size <= perStretch);
  if (samples <= points || level < 0) {
    await load(places);
    const parts = places.map((place): [Samples, number, number] => [read.get(place) as Samples, ...within(place)]);
    const time = concatenated(parts.map(([own, start, end]) => own.time.subarray(start, end)));
    const values = concatenated(parts.map(([own, start, end]) => own.values.subarray(start, end)));
    if (samples <= points) return drawn(samples, Array.from(time), Array.from(values));
    return thinned(stretchesOf(time, values, 0, 1), samples, points);
  }

  const size = LEVELS[level] as number;
  const stored = places.filter((place) => !read.has(place));
  const kept = new Map<number, Uint8Array>();
  for (const [index, part] of (await source.stretches(stored, partOf(level))).entries())
    kept.set(stored[index] as number, part);
  const parts = places.map((place): Stretches => {
    const part = kept.get(place);
    if (part) return levelIn(part, level, at(place).samples);
    const [own, [start, end]] = [read.get(place) as Samples, within(place)];
    return stretchesOf(own.time.subarray(start, end), own.values.subarray(start, end), at(place).first + start, size);
  });
  return thinned(joined(parts), samples, points);
}

/** So many of the times lie below this one; with those equal to it where asked. */
function countBelow(time: Float64Array, when: number, orEqual: boolean): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    const one = time[middle] as number;
    if (one < when || (orEqual && one === when)) low = middle + 1;
    else high = middle;
  }
  return low;
}

function concatenated(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** Stretches put together until they give no more points than asked for. */
function thinned(all: Stretches, samples: number, points: number): TraceWindow {
  const count = all.low.length;
  const groups = Math.min(count, Math.floor(points / 2));
  const [time, values]: [number[], number[]] = [[], []];
  for (let group = 0; group < groups; group++) {
    const one = merged(all, Math.floor((group * count) / groups), Math.floor(((group + 1) * count) / groups));
    const low: Point = [one.lowTime, one.low];
    const high: Point = [one.highTime, one.high];
    const inOrder = one.lowAt === one.highAt ? [low] : one.lowAt < one.highAt ? [low, high] : [high, low];
    for (const [when, value] of inOrder) {
      time.push(when);
      values.push(value);
    }
  }
  return drawn(samples, time, values, false);
}

function drawn(samples: number, time: readonly number[], values: readonly number[], whole = true): TraceWindow {
  const read = values.flatMap((value, index) => (Number.isNaN(value) ? [] : [index]));
  return {
    samples,
    whole,
    time: Float64Array.from(read, (index) => time[index] as number),
    values: Float64Array.from(read, (index) => values[index] as number),
  };
}

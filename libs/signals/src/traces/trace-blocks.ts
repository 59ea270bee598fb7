import { packColumn, unpackColumn } from './packed-column.js';
import { joined, readStretches, type Stretches, stretchesOf, widened, writeStretches } from './stretches.js';

/** Samples of a block; only the last of a trace has fewer. */
export const BLOCK_SAMPLES = 65_536;

/** How many samples a stretch of each level has: each level is four times as wide as the one before. */
export const LEVELS = [64, 256, 1024, 4096, 16_384, 65_536] as const;
/** The first levels are kept apart from the last, so that a whole trace is drawn without reading the first. */
const FINE_LEVELS = 3;

/** Which block of a trace, and what it spans. */
export interface BlockSpan {
  /** Number of its first sample within the trace, from 0. */
  first: number;
  samples: number;
  /** Seconds: its first and its last sample. */
  from: number;
  to: number;
}

/** A block as stored. */
export interface TraceBlock extends BlockSpan {
  time: Uint8Array;
  values: Uint8Array;
  /** Its stretches of the first three levels, and those of the others: level after level. */
  fine: Uint8Array;
  coarse: Uint8Array;
}

/** A trace in blocks of 65 536 samples, each with its samples bit for bit and its smallest and largest ones by stretches. */
export function* blocksOf({ time, values }: { time: Float64Array; values: Float64Array }): Generator<TraceBlock> {
  if (time.length !== values.length)
    throw new RangeError(
      `blocksOf: ${time.length} times and ${values.length} values; a trace has one value for each time.`,
    );
  for (let first = 0; first < time.length; first += BLOCK_SAMPLES) {
    const [ownTime, own] = [time, values].map((all) => all.slice(first, first + BLOCK_SAMPLES)) as [
      Float64Array,
      Float64Array,
    ];
    const levels: Stretches[] = [stretchesOf(ownTime, own, first, LEVELS[0])];
    for (let level = 1; level < LEVELS.length; level++) levels.push(widened(levels[level - 1] as Stretches, 4));
    yield {
      first,
      samples: own.length,
      from: ownTime[0] as number,
      to: ownTime[own.length - 1] as number,
      time: packColumn(ownTime, 2),
      values: packColumn(own, 1),
      fine: writeStretches(joined(levels.slice(0, FINE_LEVELS))),
      coarse: writeStretches(joined(levels.slice(FINE_LEVELS))),
    };
  }
}

/** The samples of a block. */
export function samplesOf({ time, values }: Pick<TraceBlock, 'time' | 'values'>): {
  time: Float64Array;
  values: Float64Array;
} {
  return { time: unpackColumn(time), values: unpackColumn(values) };
}

/** In which part of a block the stretches of a level are kept. */
export function partOf(level: number): 'fine' | 'coarse' {
  return level < FINE_LEVELS ? 'fine' : 'coarse';
}

/** The stretches of one level, from the stored part of a block that has them. */
export function levelIn(part: Uint8Array, level: number, samples: number): Stretches {
  const begins = level < FINE_LEVELS ? 0 : FINE_LEVELS;
  const counts = LEVELS.map((size) => Math.ceil(samples / size));
  const at = counts.slice(begins, level).reduce((sum, count) => sum + count, 0);
  const all = readStretches(part);
  const cut = <T extends Float64Array | Uint32Array>(column: T) =>
    column.subarray(at, at + (counts[level] as number)) as T;
  return {
    lowAt: cut(all.lowAt),
    highAt: cut(all.highAt),
    lowTime: cut(all.lowTime),
    highTime: cut(all.highTime),
    low: cut(all.low),
    high: cut(all.high),
  };
}

/** A whole trace from its blocks, in their order. */
export function traceFrom(blocks: readonly Pick<TraceBlock, 'time' | 'values' | 'samples'>[]): {
  time: Float64Array;
  values: Float64Array;
} {
  const samples = blocks.reduce((sum, block) => sum + block.samples, 0);
  const whole = { time: new Float64Array(samples), values: new Float64Array(samples) };
  let at = 0;
  for (const block of blocks) {
    const own = samplesOf(block);
    whole.time.set(own.time, at);
    whole.values.set(own.values, at);
    at += block.samples;
  }
  return whole;
}

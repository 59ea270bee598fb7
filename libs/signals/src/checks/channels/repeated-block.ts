import { seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';
import type { ChannelRecord } from './channel-record.js';

/** So many readings in a row do not come twice by chance where they change from one to the next. */
const BLOCK = 64;
/** A block must change at least so often: a channel that stands still repeats itself honestly. */
const CHANGES = BLOCK / 2;
const MULTIPLIER = 0x9e3779b1;

interface Repetition {
  first: number;
  second: number;
  samples: number;
}

/** Does a stretch of this channel, digit for digit, come a second time? */
export function repeatedBlock(record: ChannelRecord, time: Float64Array): Finding {
  const { channel } = record;
  const named = { check: 'repeated block', question: `Does a stretch of ${channel} come twice?` };
  const found = repetitionIn(record.indicated);
  if (!found)
    return {
      check: { ...named, outcome: 'pass', finding: `No ${BLOCK} readings in a row come a second time.` },
    };
  const at = (index: number) => time[index] as number;
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `${found.samples} readings in a row, from ${seconds(at(found.first))} on, come again digit for digit from ${seconds(at(found.second))} on.`,
      action: 'Ask how the file was made: no rig gives the same noise twice. Look for the original record.',
      place: { channel, from: at(found.second), to: at(found.second + found.samples - 1) },
    },
    signal: 'signal.repeated-block',
  };
}

/**
 * The first stretch that comes again later in the record. Blocks are found by a rolling hash over every start, and then
 * compared reading for reading.
 *
 * Source: Karp and Rabin (1987), IBM Journal of Research and Development 31, 249-260.
 */
function repetitionIn(values: Float64Array): Repetition | undefined {
  const words = new Uint32Array(values.buffer, values.byteOffset, 2 * values.length);
  const hashed = (i: number) =>
    Math.imul((words[2 * i] as number) ^ Math.imul(words[2 * i + 1] as number, 31), MULTIPLIER);
  let leaving = 1;
  for (let i = 0; i < BLOCK; i++) leaving = Math.imul(leaving, MULTIPLIER);

  const starts = new Map<number, number>();
  let [hash, changes] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    hash = (Math.imul(hash, MULTIPLIER) + hashed(i)) | 0;
    if (i > 0 && values[i] !== values[i - 1]) changes++;
    if (i >= BLOCK) {
      hash = (hash - Math.imul(leaving, hashed(i - BLOCK))) | 0;
      if (values[i - BLOCK + 1] !== values[i - BLOCK]) changes--;
    }
    const start = i - BLOCK + 1;
    if (start < 0 || changes < CHANGES) continue;
    const before = starts.get(hash);
    if (before !== undefined && before + BLOCK <= start && sameFor(values, before, start) >= BLOCK)
      return whole(values, before, start);
    // Blocks end to end are enough: any stretch twice as long holds one of them.
    if (before === undefined && start % BLOCK === 0) starts.set(hash, start);
  }
  return undefined;
}

function sameFor(values: Float64Array, first: number, second: number): number {
  let samples = 0;
  while (
    second + samples < values.length &&
    first + samples < second &&
    values[first + samples] === values[second + samples]
  )
    samples++;
  return samples;
}

function whole(values: Float64Array, first: number, second: number): Repetition {
  let before = 0;
  while (first > before && values[first - before - 1] === values[second - before - 1]) before++;
  return {
    first: first - before,
    second: second - before,
    samples: sameFor(values, first, second) + before,
  };
}

import { percent } from '../../features/words.js';
import type { Finding } from '../finding.js';
import type { ChannelRecord, Loaded } from './channel-record.js';

/** Two sensors on one thing differ in their noise. Common practice, no source. */
const SAME_SHARE = 0.95;
const FEWEST = 20;

/** Is one channel a copy of another of its kind? One check per pair. */
export function copiedChannels(channels: readonly ChannelRecord[], time: Float64Array, loaded: Loaded): Finding[] {
  return channels.flatMap((one, index) =>
    channels
      .slice(index + 1)
      .filter(({ kind, unit }) => kind === one.kind && unit === one.unit)
      .map((other) => copied(one, other, time, loaded)),
  );
}

function copied(one: ChannelRecord, other: ChannelRecord, time: Float64Array, { from, last }: Loaded): Finding {
  const named = {
    check: 'copied channel',
    question: `Are ${one.channel} and ${other.channel} readings of two sensors?`,
  };
  let same = 0;
  for (let i = from; i <= last; i++) if (one.indicated[i] === other.indicated[i]) same++;
  const samples = last - from + 1;
  const share = same / samples;
  const finding = `${percent(share)} of their readings under load are equal digit for digit.`;
  if (samples < FEWEST || share < SAME_SHARE) return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding,
      action: 'Check the wiring and the layout of the file: one sensor may feed both columns, or one was copied.',
      place: { channel: other.channel, from: time[from] as number, to: time[last] as number },
    },
    signal: 'signal.repeated-block',
  };
}

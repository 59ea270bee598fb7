import { inUnit, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';
import type { ChannelRecord, Loaded } from './channel-record.js';

const FEWEST = 20;
/** A frozen stretch is longer than this many times the usual one of this channel, whose steps may be coarse. Common practice, no source. */
const LONGER_THAN_USUAL = 20;
/** A stretch shorter than this share of the loading freezes nothing that matters. */
const LEAST_SHARE = 0.01;
/** Readings at the very top are the business of the check on clipping. */
const TOP = 0.999;

/** Did the channel go on reading all the time, or did it freeze on its way? */
export function frozen(
  { channel, indicated, unit }: ChannelRecord,
  time: Float64Array,
  { from, last }: Loaded,
): Finding {
  const named = { check: 'frozen value', question: `Did ${channel} go on reading under load?` };
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = from; i <= last; i++) if ((indicated[i] as number) > largest) largest = indicated[i] as number;

  let [runs, longest, at] = [0, 0, from];
  for (let start = from; start <= last; ) {
    const value = indicated[start] as number;
    let end = start + 1;
    while (end <= last && indicated[end] === value) end++;
    runs++;
    if (end - start > longest && value < TOP * largest) [longest, at] = [end - start, start];
    start = end;
  }
  const samples = last - from + 1;
  const usual = runs > 1 ? (samples - longest) / (runs - 1) : samples;
  const end = at + Math.max(longest, 1) - 1;
  const lasted = (time[end] as number) - (time[at] as number);
  const most = Math.max(FEWEST, LONGER_THAN_USUAL * usual, LEAST_SHARE * samples);
  if (longest <= most)
    return {
      check: { ...named, outcome: 'pass', finding: `It never stood at one reading for more than ${seconds(lasted)}.` },
    };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `It stood at ${inUnit(unit)(indicated[at] as number)} for ${longest} readings, ${seconds(lasted)}, while the run went on.`,
      action: 'Check sensor and logger: what this channel did in that time is not known.',
      place: { channel, from: time[at] as number, to: time[end] as number },
    },
    signal: 'signal.stuck',
  };
}

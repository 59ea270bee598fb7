import type { FlatTop } from '../features/flat-top.js';
import { inUnit } from '../features/words.js';
import type { Finding } from './finding.js';

/** Did this channel run into its full scale? */
export function fullScaleReached(channel: string, flatTop: FlatTop | undefined, unit: string): Finding {
  const named = { check: 'clipping', question: `Did ${channel} stay below its full scale?` };
  if (!flatTop)
    return { check: { ...named, outcome: 'pass', finding: 'No three readings in a row stand at full scale.' } };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `${flatTop.samples} readings in a row stand at ${inUnit(unit)(flatTop.value)}, ${flatTop.at}: what rests on them is at least this.`,
      action: 'Use a sensor or amplifier range that is not reached.',
      place: { channel, from: flatTop.from, to: flatTop.to },
    },
    signal: 'signal.saturated',
  };
}

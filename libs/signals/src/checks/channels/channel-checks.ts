import type { Finding } from '../finding.js';
import type { ChannelRecord, Loaded } from './channel-record.js';
import { copiedChannels } from './copied-channel.js';
import { resolution, smoothness } from './digits.js';
import { frozen } from './frozen.js';
import { repeatedBlock } from './repeated-block.js';

/**
 * Do the channels that follow the loading look like readings of sensors? The same questions for every kind of test. What
 * they flag is for a person: an honest record may be odd, and a false one may pass.
 */
export function channelChecks(channels: readonly ChannelRecord[], time: Float64Array, loaded: Loaded): Finding[] {
  return [
    ...channels.flatMap((record) => [
      frozen(record, time, loaded),
      resolution(record, time, loaded),
      smoothness(record, time, loaded),
      repeatedBlock(record, time),
    ]),
    ...copiedChannels(channels, time, loaded),
  ];
}

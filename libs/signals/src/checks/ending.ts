import type { Check, EndReason } from '@breakbook/lab';
import type { BurstFeatures } from '../features/burst.js';
import { letGo, lossIn } from '../features/failure.js';
import { kPa, percent, seconds } from '../features/words.js';
import type { Finding } from './finding.js';

/** Did the run end as it should, and do record and examination tell the same story? */
export function endingCheck(
  time: Float64Array,
  features: BurstFeatures,
  endReason: EndReason | undefined,
  channel: string,
): Finding {
  const { ending, peak, despiked } = features;
  const burst = letGo(ending);
  const loss = lossIn(ending);
  const at = time[loss ? loss.fallen : peak.index] as number;
  const shows = loss
    ? `The pressure ${burst ? 'fell' : 'went'} from ${kPa(despiked[loss.before] as number)} to ${kPa(despiked[loss.fallen] as number)} at ${seconds(at)}${ending.ending === 'as a person says' ? `, by a ${ending.loss} as a person says` : ''}`
    : ending.ending === 'record ended' || !('sharePerSecond' in ending)
      ? `The record ends with the pressure still up, after a peak of ${kPa(peak.value)}`
      : `After a peak of ${kPa(peak.value)} the pressure came down by ${percent(ending.sharePerSecond)} a second${ending.ending === 'leak' ? ', as by a leak' : ', without a burst'}`;
  const says = endReason ? `the examination says "${endReason}"` : 'no examination says how the run ended';
  const { outcome, action } = judged(burst, ending.ending === 'record ended', endReason);
  return {
    check: {
      check: 'ending',
      question: 'Did the run end as it should, and do record and examination agree?',
      outcome,
      finding: `${shows}; ${says}.`,
      ...(action === undefined ? {} : { action }),
      place: { channel, from: at, to: at },
    },
    ...(burst ? {} : { signal: 'signal.no-event' as const }),
  };
}

function judged(
  burst: boolean,
  cutOff: boolean,
  endReason: EndReason | undefined,
): { outcome: Check['outcome']; action?: string } {
  switch (endReason) {
    case 'rig fault':
      return {
        outcome: 'fail',
        action: 'Decide whether the specimen can still be tested, and record what the rig did to it.',
      };
    case 'stopped early':
      return {
        outcome: 'flag',
        action: 'Decide whether the run says anything of the specimen; its pressure is at least the one reached.',
      };
    case 'something broke':
      return burst
        ? { outcome: 'pass' }
        : {
            outcome: 'flag',
            action: 'Compare trace and specimen: the record shows no sudden fall, so the pressure is "at least".',
          };
    case 'rig limit reached':
    case 'programme ended':
      if (burst) return { outcome: 'flag', action: 'Compare trace and specimen: the record shows a sudden fall.' };
      return cutOff
        ? { outcome: 'flag', action: 'Let the record run on until the line is vented, so that the end can be seen.' }
        : { outcome: 'pass' };
    case undefined:
      return burst
        ? { outcome: 'pass' }
        : { outcome: 'flag', action: 'Examine the specimen and record how the run ended.' };
  }
}

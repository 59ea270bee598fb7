import type { LossOfPressure } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { median } from 'simple-statistics';
import type { BurstSource } from '../features/burst-source.js';
import { widthsIn } from '../features/burst-width.js';
import { lossIn } from '../features/failure.js';
import { firstAt } from '../features/vented-zero.js';
import { inUnit, percent, seconds } from '../features/words.js';
import type { Finding } from './finding.js';

const WORDS: Record<LossOfPressure | 'let down', string> = {
  burst: 'a burst',
  leak: 'a leak',
  'tyre off': 'a tyre that came off',
  'let down': 'a line that was let down',
};

/**
 * How was the pressure lost: by a burst, a leak, a tyre that came off, or was it let down? What the record suggests, for a
 * person to confirm: by the failure mode found, or by stating the moment. Left out where the method does not ask, and where
 * the record ends with the pressure up.
 *
 * A tyre that leaves the rim opens all round, so the pressure is gone at once, and the rim springs back; what broke does
 * not. Common practice, no source.
 */
export function lossProposed(source: BurstSource, examined: LossOfPressure | undefined): Finding[] {
  const named = { check: 'loss of pressure', question: 'How was the pressure lost?' };
  const { ending } = source.features;
  const asked = source.method.parameters.tyreOff;
  if (!asked || ending.ending === 'record ended') return [];
  if (ending.ending === 'as a person says')
    return [{ check: { ...named, outcome: 'pass', finding: `It was ${WORDS[ending.loss]}, as a person says.` } }];

  const { proposed, because } = proposal(source, asked);
  const looks = `It looks like ${WORDS[proposed]}: ${because}`;
  if (examined === proposed || (proposed === 'let down' && examined === undefined))
    return [
      {
        check: {
          ...named,
          outcome: 'pass',
          finding: examined ? `${looks}. The examination says so, too.` : `${looks}. No failure mode says otherwise.`,
        },
      },
    ];
  const at = source.time[lossIn(ending)?.fallen ?? source.features.loadedTo] as number;
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding: examined ? `${looks}; the examination says ${WORDS[examined]}.` : `${looks}; no examination says how.`,
        action: examined
          ? 'Look at rim and tyre again, and state the moment of the failure with how the pressure was lost.'
          : 'Examine rim and tyre and record what gave way first: only a rim that broke is a strength of the rim.',
        place: { channel: 'rimPressure', from: at, to: at },
      },
    },
  ];
}

function proposal(
  source: BurstSource,
  { rest, within, width }: NonNullable<BurstSource['method']['parameters']['tyreOff']>,
): { proposed: LossOfPressure | 'let down'; because: string } {
  const { ending, despiked, peak } = source.features;
  if (ending.ending === 'leak' || ending.ending === 'let down')
    return { proposed: ending.ending, because: `${percent(ending.sharePerSecond)} of the peak a second` };
  const loss = lossIn(ending);
  if (!loss) throw new Error('a pressure that was lost at once has a moment');

  const { time } = source;
  const until = valueIn(within, 's');
  const last = Math.min(time.length - 1, firstAt(time, (time[loss.before] as number) + until));
  const left = (despiked[last] as number) / peak.value;
  const gone = `${percent(Math.max(0, left))} of the peak was left ${seconds((time[last] as number) - (time[loss.before] as number))} later`;
  if (left > rest) return { proposed: 'burst', because: gone };
  const wider = widest(source, last);
  if (wider === undefined) return { proposed: 'tyre off', because: `${gone}, and no width was recorded` };
  const stays = `${gone}, and the rim was ${inUnit('mm')(wider)} wider than before where it was most`;
  return { proposed: wider > valueIn(width, 'mm') ? 'burst' : 'tyre off', because: stays };
}

/** How much wider the rim stayed after a sample, at its widest point, mm; undefined where no width says it. */
function widest(source: BurstSource, after: number): number | undefined {
  const { time, method } = source;
  const start = (time[0] as number) + valueIn(method.parameters.zeroTime, 's');
  const changes = widthsIn(source).flatMap((one) => {
    const before = Array.from(one.values.subarray(0, firstAt(one.time, start)));
    const then = Array.from(one.values.subarray(firstAt(one.time, time[after] as number)));
    return before.length > 0 && then.length > 0 ? [Math.abs(median(then) - median(before))] : [];
  });
  return changes.length > 0 ? Math.max(...changes) : undefined;
}

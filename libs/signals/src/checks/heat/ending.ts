import type { Check, EndReason } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { FailureCandidate, Survival } from '../../features/heat-failure.js';
import { ranItsTime } from '../../features/heat-stretch.js';
import { inUnit, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';

/** Did the run end as it should, and do record and examination tell the same story? */
export function heatEnding(
  survival: Survival,
  earlierFalls: readonly FailureCandidate[],
  endReason: EndReason | undefined,
): Finding {
  const { candidates, failure, stretch } = survival;
  const { time } = stretch.features.record;
  const shows =
    candidates.length > 0
      ? candidates
          .map(({ by, time: at }) =>
            by === 'tyre pressure'
              ? `the tyre lost its pressure at ${seconds(at)}`
              : `the ${by} ended at once at ${seconds(at)}`,
          )
          .join(', ')
      : `the record shows no sudden end`;
  const earlier =
    earlierFalls.length > 0
      ? `; in an earlier stage the tyre lost its pressure (from ${earlierFalls.map(({ value }) => inUnit('kPa')(value)).join(', ')}) and the run went on`
      : '';
  const says = endReason ? `the examination says "${endReason}"` : 'no examination says how the run ended';
  const duration = stretch.programme && valueIn(stretch.programme.duration, 's');
  const { outcome, action } =
    earlierFalls.length > 0
      ? {
          outcome: 'flag' as const,
          action: 'Record what was done between the stages: another tyre or tube is another build.',
        }
      : judged(survival, ranItsTime(stretch, duration) !== false, endReason);
  const at = failure?.time ?? candidates[0]?.time ?? (time[stretch.last] as number);
  const sentence = `${shows}${earlier}; ${says}.`;
  return {
    check: {
      check: 'ending',
      question: 'Did the run end as it should, and do record and examination agree?',
      outcome,
      finding: `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`,
      ...(action === undefined ? {} : { action }),
      place: { channel: candidates[0]?.channel ?? 'brakeForce', from: at, to: at },
    },
  };
}

function judged(
  { failure, step }: Survival,
  ranItsTime: boolean,
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
        action: 'Decide whether the run says anything of the specimen; what it survived is at least what was reached.',
      };
    case 'something broke':
      return failure || step
        ? { outcome: 'pass' }
        : {
            outcome: 'flag',
            action:
              'Compare trace and specimen: the record shows no moment of failure, so what was reached is "at most".',
          };
    case 'rig limit reached':
    case 'programme ended':
      if (failure) return { outcome: 'flag', action: 'Compare trace and specimen: the record shows a failure.' };
      return ranItsTime
        ? { outcome: 'pass' }
        : { outcome: 'flag', action: 'Find out why braking ended before the programme did.' };
    case undefined:
      return { outcome: 'flag', action: 'Examine the specimen and record how the run ended.' };
  }
}

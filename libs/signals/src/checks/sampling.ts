import type { MethodChannel } from '@breakbook/lab';
import { printSignificant, valueIn } from '@breakbook/units';
import { seconds } from '../features/words.js';
import type { GapRule, TimeSteps } from '../files/time-steps.js';
import type { Finding } from './finding.js';

/** A decimal clock may print a rate a hair below the one asked for. */
const SLACK = 0.999;

/** Is every channel sampled as fast as the method asks? */
export function samplingRate(steps: TimeSteps, channels: readonly MethodChannel[]): Finding {
  const question = 'Was the record sampled fast enough?';
  const rate = 1 / steps.period;
  const asked = channels.flatMap(({ channel, minimumRate }) =>
    minimumRate ? [{ channel, rate: valueIn(minimumRate, 'Hz') }] : [],
  );
  const fastest = asked.reduce((most, one) => (one.rate > most.rate ? one : most), { channel: '', rate: 0 });
  const found = `${printSignificant(rate, 4)} samples a second`;
  if (rate >= SLACK * fastest.rate)
    return {
      check: {
        check: 'sampling rate',
        question,
        outcome: 'pass',
        finding: fastest.rate > 0 ? `${found}; the method asks for ${fastest.rate} or more.` : `${found}.`,
      },
    };
  return {
    check: {
      check: 'sampling rate',
      question,
      outcome: 'fail',
      finding: `${found}; the method asks for ${fastest.rate} or more on channel ${fastest.channel}.`,
      action: 'Set the logger to the rate of the method. A peak between two samples of this record may be missed.',
    },
  };
}

/** Is the record without gaps? */
export function gaps(steps: TimeSteps, rule: GapRule, channel: string): Finding {
  const question = 'Is the record without gaps?';
  const allowed = 'periods' in rule ? `${rule.periods} sample periods` : seconds(rule.seconds);
  const longest = steps.gaps.reduce<TimeSteps['gaps'][number] | undefined>(
    (most, gap) => (!most || gap.to - gap.from > most.to - most.from ? gap : most),
    undefined,
  );
  if (!longest)
    return {
      check: {
        check: 'gaps',
        question,
        outcome: 'pass',
        finding: `No step is longer than ${allowed}; the longest is ${seconds(steps.longest)}.`,
      },
    };
  const count = steps.gaps.length;
  return {
    check: {
      check: 'gaps',
      question,
      outcome: 'flag',
      finding: `${count} gap${count === 1 ? '' : 's'} longer than ${allowed}; the longest is ${seconds(longest.to - longest.from)}, from ${longest.from} s to ${longest.to} s.`,
      action: 'Look at the place in the trace: whatever happened in a gap is not known, and nothing is filled in.',
      place: { channel, from: longest.from, to: longest.to },
    },
  };
}

import { type ImpactParameters, isNotEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { STRIKER_FORCE } from '../../features/impact-source.js';
import { leastSquaresSlope } from '../../features/least-squares-slope.js';
import type { Contact, StrikeFeatures } from '../../features/strike.js';
import { firstAt } from '../../features/vented-zero.js';
import { inUnit, percent, seconds } from '../../features/words.js';
import { fullScaleReached } from '../clipping.js';
import type { Finding } from '../finding.js';

const newtons = inUnit('N');

/** Was the force at rest before contact, for as long as the method asks? */
export function baseline(
  { record, zero, raw, threshold }: StrikeFeatures,
  contact: Contact,
  parameters: ImpactParameters,
): Finding {
  const named = { check: 'baseline', question: 'Was the force at rest before contact?' };
  const { time } = record;
  const start = time[0] as number;
  const asked = valueIn(parameters.baseline, 's');
  const free = (time[contact.from] as number) - start;
  const place = { channel: STRIKER_FORCE, from: start, to: start + asked };
  const fail = (finding: string): Finding => ({
    check: {
      ...named,
      outcome: 'fail',
      finding,
      action: 'Start the record earlier, with the striker falling freely, and let the amplifier settle.',
      place,
    },
  });
  if (isNotEvaluated(zero)) return fail(`No zero could be taken: ${zero.notEvaluated.because}.`);
  if (free < asked)
    return fail(`Contact begins ${seconds(free)} after the record does; the zero is taken from ${seconds(asked)}.`);
  const drift = leastSquaresSlope(time, raw, 0, firstAt(time, start + asked)) * asked;
  const finding = `It stood at ${newtons(zero.zero)} with a noise of ${newtons(zero.noise)} and moved by ${newtons(drift)} in ${seconds(asked)}; contact counts from ${newtons(threshold)}.`;
  // Against the share of the peak: a drift widens the noise, and with it the threshold, by itself.
  return Math.abs(drift) > parameters.contactShare * contact.peak.value
    ? fail(finding)
    : { check: { ...named, outcome: 'pass', finding } };
}

/** Did the peak stay within the part of the range that the method lets be used, and is its top whole? */
export function forceRange({ record }: StrikeFeatures, contact: Contact, parameters: ImpactParameters): Finding[] {
  const named = { check: 'range used', question: 'Did the force stay well within the range of its sensor?' };
  const { fullScale, time } = record;
  const { rawPeak, flatTop } = contact;
  const clipped = fullScaleReached(STRIKER_FORCE, flatTop, 'N');
  if (fullScale === undefined)
    return [
      clipped,
      {
        check: {
          ...named,
          outcome: 'not evaluated',
          finding: 'The full scale of the sensor is not known for this day.',
          action: 'Enter where the sensor was placed, with its full scale.',
        },
      },
    ];
  const share = rawPeak.value / fullScale;
  const finding = `The peak of ${newtons(rawPeak.value)} uses ${percent(share)} of the full scale of ${newtons(fullScale)}; the method lets ${percent(parameters.forceShareOfFullScale)} be used.`;
  const at = time[rawPeak.index] as number;
  return [
    clipped,
    share <= parameters.forceShareOfFullScale
      ? { check: { ...named, outcome: 'pass', finding } }
      : {
          check: {
            ...named,
            outcome: 'flag',
            finding,
            action: 'Use a sensor of a larger range for strikes as hard as this.',
            place: { channel: STRIKER_FORCE, from: at, to: at },
          },
        },
  ];
}

/** Did the striker strike once? */
export function singleStrike(
  { record, second }: StrikeFeatures,
  contact: Contact,
  parameters: ImpactParameters,
): Finding {
  const named = { check: 'second strike', question: 'Was the striker caught before it fell again?' };
  const { time } = record;
  const window = valueIn(parameters.secondStrike, 's');
  const left = time[contact.to] as number;
  if (second) {
    const at = time[second.first] as number;
    return {
      check: {
        ...named,
        outcome: 'flag',
        finding: `A second force of ${newtons(second.peak.value)} begins ${seconds(at - left)} after the first ended.`,
        action: 'Look at the catcher. What was found on the part may come from the second strike.',
        place: { channel: STRIKER_FORCE, from: at, to: time[second.last] as number },
      },
      signal: 'signal.step',
    };
  }
  const seen = (time.at(-1) as number) - left;
  if (seen < window)
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: `The record ends ${seconds(seen)} after contact; a second strike is looked for over ${seconds(window)}.`,
        action: 'Let the record run on for as long as the method says.',
      },
    };
  return { check: { ...named, outcome: 'pass', finding: `No second force within ${seconds(window)} after contact.` } };
}

export function noStrike({ record: { time } }: StrikeFeatures): Finding {
  return {
    check: {
      check: 'loading',
      question: 'Was the specimen struck at all?',
      outcome: 'fail',
      finding: 'The force never rises above the noise of the record.',
      action: 'Check that this is the record of the strike, and that the sensor was connected.',
      place: { channel: STRIKER_FORCE, from: time[0] as number, to: time.at(-1) as number },
    },
    signal: 'signal.no-event',
  };
}

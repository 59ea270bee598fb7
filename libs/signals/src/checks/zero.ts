import { type BurstParameters, isNotEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { BurstFeatures } from '../features/burst.js';
import { lossIn } from '../features/failure.js';
import { leastSquaresSlope } from '../features/least-squares-slope.js';
import { firstAt, VENTED_SHARE, ventedZero } from '../features/vented-zero.js';
import { kPa, percent, seconds } from '../features/words.js';
import type { Finding } from './finding.js';

/** A zero further off than this share of full scale is no zero of a vented sensor. Common practice, no source. */
const LARGEST_ZERO_SHARE = 0.02;

/** Was the line open to the room while the zero was taken? */
export function ventedStart(
  time: Float64Array,
  features: BurstFeatures,
  parameters: BurstParameters,
  fullScale: number | undefined,
  channel: string,
): Finding {
  const { zero, raw } = features;
  const named = { check: 'vented start', question: 'Was the line vented while the zero was taken?' };
  if (isNotEvaluated(zero))
    return {
      check: {
        ...named,
        outcome: 'fail',
        finding: `No zero could be taken: ${zero.notEvaluated.because}.`,
        action: 'Start the record with the line vented, for as long as the method says.',
      },
    };

  const place = { channel, from: zero.from, to: zero.to };
  const last = firstAt(time, zero.to);
  const rise = leastSquaresSlope(time, raw, 0, last) * (zero.to - zero.from);
  const most = parameters.zeroDriftShare * (fullScale ?? features.peak.value);
  const action =
    'Look at the start of the trace. If the pump ran or the line was under pressure, the zero is not known.';
  if (Math.abs(rise) > most)
    return {
      check: {
        ...named,
        outcome: 'fail',
        finding: `The reading moved by ${kPa(rise)} in the first ${seconds(zero.to - zero.from)}, from which the zero is taken.`,
        action,
        place,
      },
    };
  if (fullScale !== undefined && Math.abs(zero.zero) > LARGEST_ZERO_SHARE * fullScale)
    return {
      check: {
        ...named,
        outcome: 'fail',
        finding: `The reading stood at ${kPa(zero.zero)} at the start, ${percent(zero.zero / fullScale)} of full scale.`,
        action,
        place,
      },
    };
  return {
    check: {
      ...named,
      outcome: 'pass',
      finding: `The first ${seconds(zero.to - zero.from)} stood still at ${kPa(zero.zero)}, with a noise of ${kPa(zero.noise)}.`,
    },
  };
}

/** Did the zero of the sensor stay where it was? Compares the vented start with the end of the record. */
export function zeroDrift(
  time: Float64Array,
  features: BurstFeatures,
  parameters: BurstParameters,
  fullScale: number | undefined,
  channel: string,
): Finding {
  const named = { check: 'zero drift', question: 'Did the zero of the sensor stay where it was?' };
  const unable = (finding: string): Finding => ({
    check: {
      ...named,
      outcome: 'not evaluated',
      finding,
      action: 'Let the record run on until the line has been vented for as long as the method says.',
    },
  });
  if (isNotEvaluated(features.zero)) return unable('There is no zero from the start to compare with.');
  if (fullScale === undefined) return unable('The full scale of the sensor is not known for this day.');

  const end = time.at(-1) as number;
  const from = end - valueIn(parameters.zeroTime, 's');
  const down = time[lossIn(features.ending)?.fallen ?? features.loadedTo] as number;
  if (from < down) return unable('The record ends too soon after the pressure came down.');
  const after = ventedZero(time, features.raw, from, end);
  if (isNotEvaluated(after)) return unable(`No zero could be taken at the end: ${after.notEvaluated.because}.`);
  if (Math.abs(after.zero) > VENTED_SHARE * features.peak.value)
    return unable(`The record ends at ${kPa(after.zero)}: the line was not vented.`);

  const share = Math.abs(after.zero) / fullScale;
  const finding = `${kPa(after.zero)} between start and end, ${percent(share)} of full scale; the method lets ${percent(parameters.zeroDriftShare)} pass.`;
  if (share <= parameters.zeroDriftShare) return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'fail',
      finding,
      action: 'Have the sensor looked at before the next run; it may have been overloaded or wetted.',
      place: { channel, from, to: end },
    },
  };
}

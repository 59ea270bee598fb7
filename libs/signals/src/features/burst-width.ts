import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { BurstSource, FromPressure, KeyedReading } from './burst-source.js';
import { kneeOf, withoutBounds } from './burst-volume.js';
import { onClock } from './channel-on-clock.js';
import { complianceOf } from './compliance.js';
import { firstAtOrAbove } from './first-at-or-above.js';
import { WIDTH_CHARACTERISTICS, type WidthMoments, type WidthPoint, widthChange, widthPoint } from './rim-width.js';
import { VENTED_SHARE, ventedZero } from './vented-zero.js';
import { kPa, seconds } from './words.js';

/** Channels of the rim's width: rimWidth, rimWidth1, rimWidth2 ... */
export const RIM_WIDTH = /^rimWidth\d*$/;

/** Every width that was recorded. */
export const widthsIn = ({ beside }: BurstSource) => beside.filter(({ channel }) => RIM_WIDTH.test(channel));

/** The characteristics that need the width of the rim, recorded or keyed. */
export const OF_WIDTH: Record<string, (source: BurstSource) => FromPressure> = {
  ...Object.fromEntries(
    Object.entries(WIDTH_CHARACTERISTICS).map(([name, wanted]) => [
      name,
      (source: BurstSource): FromPressure => {
        const channels = widthsIn(source);
        if (channels.length === 0) {
          const points = keyedPoints(source);
          return widthChange(wanted, points, { when: 'as keyed', source: 'keyed' });
        }
        const moments = momentsOf(source);
        const { under, ventedAgainFrom } = moments;
        const when = wanted.change === 'growth' ? under : ventedAgainFrom;
        const points = channels.map((one) => widthPoint(one, moments, source.method.parameters.gapPeriods));
        // A width does not follow the pressure sensor in proportion that tells when it is read.
        return {
          ...widthChange(wanted, points, {
            when: isNotEvaluated(when) ? 'as recorded' : `at ${seconds(when)}`,
            source: 'trace',
          }),
          perPressure: 0,
        };
      },
    ]),
  ),

  kneePressureByWidth: (source) => {
    const none = (value: NotEvaluated): FromPressure => ({ value, unit: 'kPa', steps: [] });
    const { parameters } = source.method;
    if (!parameters.compliance) return none(withoutBounds());
    const { features, time } = source;
    const channels = widthsIn(source);
    if (channels.length === 0)
      return none(notEvaluated('the width of the rim was not recorded', 'the record has a channel rimWidth'));
    const courses = channels.map((one) => onClock(one, time, parameters.gapPeriods));
    const mean = new Float64Array(features.loadedTo + 1);
    for (const course of courses)
      for (let i = 0; i < mean.length; i++) mean[i] = (mean[i] as number) + (course[i] as number) / courses.length;
    const from = firstAtOrAbove(features.despiked, parameters.compliance.from * features.peak.value);
    if (mean.subarray(from).some(Number.isNaN))
      return none(
        notEvaluated(
          'the width is not known throughout the loading, and what it was meanwhile is not filled in',
          'the width is recorded without gaps',
        ),
      );
    const line = complianceOf(
      features.despiked,
      mean,
      { last: features.loadedTo, peak: features.peak.value },
      parameters.compliance,
    );
    return isNotEvaluated(line) ? none(line) : kneeOf(line, source, 'mean width', 'mm/kPa');
  },
};

function momentsOf({ time, features, method }: BurstSource): WidthMoments {
  const { zeroTime, widthAt } = method.parameters;
  const vented = valueIn(zeroTime, 's');
  return {
    ventedUntil: (time[0] as number) + vented,
    under: widthAt ? reaches(time, features, valueIn(widthAt, 'kPa')) : (time[features.loadedTo] as number),
    ventedAgainFrom: ventedAgain(time, features, vented),
  };
}

function reaches(time: Float64Array, { despiked, loadedTo, peak }: BurstSource['features'], pressure: number) {
  const index = firstAtOrAbove(despiked, pressure);
  return index <= loadedTo
    ? (time[index] as number)
    : notEvaluated(
        `the pressure never reached ${kPa(pressure)}; its peak is ${kPa(peak.value)}`,
        'the part is loaded up to the pressure at which the method reads the width',
      );
}

function ventedAgain(time: Float64Array, { raw, loadedTo, peak }: BurstSource['features'], seconds: number) {
  const end = time.at(-1) as number;
  const from = end - seconds;
  const after = ventedZero(time, raw, from, end);
  if (from > (time[loadedTo] as number) && !isNotEvaluated(after) && Math.abs(after.zero) <= VENTED_SHARE * peak.value)
    return from;
  return notEvaluated(
    'the record ends before the line was vented again',
    'the record runs on until the line has been vented for as long as the method says',
  );
}

/** Widths keyed before, under pressure and after, paired by their place. */
function keyedPoints({ keyed }: BurstSource): (WidthPoint | NotEvaluated)[] {
  const read = (of: string) => keyed(of, { kind: 'length', unit: 'mm' });
  const [before, under, after] = [read('rimWidthBefore'), read('rimWidthUnderPressure'), read('rimWidthAfter')] as [
    KeyedReading[],
    KeyedReading[],
    KeyedReading[],
  ];
  return before.map((one): WidthPoint | NotEvaluated => {
    const { place } = one;
    if (place === undefined)
      return notEvaluated('a width was keyed without its place', 'each width is keyed with its place on the rim');
    if (before.filter((other) => other.place === place).length > 1)
      return notEvaluated(`two widths before were keyed for "${place}"`, 'one of them is corrected away with a reason');
    return {
      point: place,
      before: one.value,
      under: pairOf(under, place, 'under pressure'),
      after: pairOf(after, place, 'after'),
    };
  });
}

function pairOf(readings: readonly KeyedReading[], place: string, when: string): number | NotEvaluated {
  const same = readings.filter((one) => one.place === place);
  const [only] = same;
  if (only && same.length === 1) return only.value;
  return notEvaluated(
    `${same.length === 0 ? 'no width' : `${same.length} widths`} ${when} at "${place}" ${same.length === 0 ? 'was' : 'were'} keyed`,
    'one width is keyed at the same places before, under pressure and after',
  );
}

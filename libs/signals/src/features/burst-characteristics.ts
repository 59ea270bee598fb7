import {
  type Characteristic,
  isNotEvaluated,
  type MethodCharacteristic,
  type NotEvaluated,
  notEvaluated,
} from '@breakbook/lab';
import { sameDimension, valueIn } from '@breakbook/units';
import type { BurstFeatures } from './burst.js';
import type { BurstSource, FromPressure } from './burst-source.js';
import { burstSteps, holdStep, rampStep, whyAtLeast } from './burst-steps.js';
import { OF_VOLUME } from './burst-volume.js';
import { OF_WIDTH } from './burst-width.js';
import { characteristicOf } from './characteristic.js';
import type { HoldFound } from './holds.js';
import { pressureTime } from './pressure-time.js';
import { inUnit, kPa } from './words.js';

/** The channel every characteristic of a burst record is read from. */
export const RIM_PRESSURE = 'rimPressure';
/** A second sensor on the same pressure, to hold the first against. */
export const SECOND_RIM_PRESSURE = 'rimPressure2';

/** The characteristics of a burst record that its method asks for, by name; undefined for a name it does not give. */
export function burstCharacteristic(wanted: MethodCharacteristic, source: BurstSource): Characteristic | undefined {
  const compute = COMPUTED[wanted.characteristic] ?? BESIDE[wanted.characteristic] ?? rampOfPart(wanted.characteristic);
  if (!compute) return undefined;
  const { zero, pressurised } = source.features;
  const computed: FromPressure = isNotEvaluated(zero)
    ? { value: zero, unit: wanted.unit, steps: [] }
    : pressurised
      ? compute(source)
      : { value: nothingHappened(source.features), unit: wanted.unit, steps: [] };
  if (wanted.characteristic in BESIDE && keyedInstead(computed, wanted, source)) return undefined;
  const sensitivity = (channel: string) =>
    channel === RIM_PRESSURE ? computed.perPressure : computed.sensitivity?.(channel);
  return characteristicOf(wanted, { ...computed, sensitivity }, source.calibrations);
}

/**
 * Such names were keyed before they were worked out. What a person read stands where the record lacks what it is worked out
 * from, and where the method means another kind of quantity by the name.
 */
function keyedInstead({ value, unit }: FromPressure, wanted: MethodCharacteristic, { keyed }: BurstSource): boolean {
  if (!sameDimension(unit, wanted.unit)) return true;
  return isNotEvaluated(value) && keyed(wanted.characteristic, wanted).length > 0;
}

function nothingHappened({ peak }: BurstFeatures): NotEvaluated {
  return notEvaluated(
    `no pressure was recorded: the largest reading is ${kPa(peak.value)} above the vented start, within its noise`,
    'a record that holds the loading of this specimen is read',
  );
}

/** What needs more than the pressure. */
const BESIDE = { ...OF_VOLUME, ...OF_WIDTH };

const COMPUTED: Record<string, (source: BurstSource) => FromPressure> = {
  burstPressure: (source) => ({
    value: { kind: whyAtLeast(source.features).length > 0 ? 'atLeast' : 'exact', value: source.features.peak.value },
    unit: 'kPa',
    steps: burstSteps(source),
    perPressure: 1,
  }),

  rawPeakPressure: (source) => {
    const { rawPeak, flatTop, gapAtPeak } = source.features;
    return {
      value: { kind: flatTop || gapAtPeak ? 'atLeast' : 'exact', value: rawPeak.value },
      unit: 'kPa',
      steps: [
        {
          question: 'What is the largest single reading?',
          numbers: { 'time, s': source.time[rawPeak.index] as number, 'reading, kPa': rawPeak.value },
          answer: `${kPa(rawPeak.value)}, with any spike in it.`,
        },
      ],
      perPressure: 1,
    };
  },

  rampRate: ({ features }) => {
    const { ramp, peak } = features;
    if (isNotEvaluated(ramp)) return { value: ramp, unit: 'kPa/s', steps: [] };
    return {
      value: { kind: 'exact', value: ramp.rate },
      unit: 'kPa/s',
      steps: [rampStep(ramp, peak.value)],
      // A sensor that reads 1 % high reads the rate 1 % high.
      perPressure: ramp.rate / peak.value,
    };
  },

  longestHold: ({ features }) => {
    const worst = leastFulfilled(features.holds);
    if (!worst)
      return {
        value: notEvaluated('the method programmes no hold', 'a method with a hold is used'),
        unit: 's',
        steps: [],
      };
    return {
      value: { kind: worst.found?.recordEnded ? 'atLeast' : 'exact', value: worst.found?.seconds ?? 0 },
      unit: 's',
      steps: features.holds.map(holdStep),
    };
  },

  pressureTimeIndex: ({ time, features }) => {
    const { loadedTo, peak, gapBefore, flatTop, ending } = features;
    if (gapBefore)
      return {
        value: notEvaluated(
          `the record has a gap from ${gapBefore.from} s to ${gapBefore.to} s, longer than the method lets be bridged`,
          'the run is recorded without gaps',
        ),
        unit: 'kPa.s',
        steps: [],
      };
    const index = pressureTime(time, features.raw, loadedTo);
    return {
      value: { kind: flatTop || ending.ending === 'record ended' ? 'atLeast' : 'exact', value: index },
      unit: 'kPa.s',
      steps: [
        {
          question: 'How severe was the loading?',
          numbers: { 'from, s': time[0] as number, 'to, s': time[loadedTo] as number, 'index, kPa·s': index },
          answer: 'The integral of pressure over time by trapezoids, up to the failure or the peak. It is no energy.',
        },
      ],
      perPressure: index / peak.value,
    };
  },

  safetyRatio: (source) => {
    if (!source.markedMaximum)
      return {
        value: notEvaluated(
          'the pressure marked on the part is not known',
          'the product’s marked maximum is given with the run',
        ),
        unit: '1',
        steps: [],
      };
    const marked = valueIn(source.markedMaximum, 'kPa');
    const burst = source.features.peak.value;
    return {
      value: { kind: whyAtLeast(source.features).length > 0 ? 'atLeast' : 'exact', value: burst / marked },
      unit: '1',
      steps: [
        ...burstSteps(source),
        {
          question: 'How many times the marked pressure is that?',
          numbers: { 'burst pressure, kPa': burst, 'marked, kPa': marked, ratio: burst / marked },
          answer: `${kPa(burst)} over ${kPa(marked)}.`,
        },
      ],
      perPressure: 1 / marked,
    };
  },
};

const PART_OF_RAMP = /^rampRatePart([1-9]\d?)$/;

/** The slope of one part of the ramp, counted from 1: `rampRatePart2` is what follows the first hold. */
function rampOfPart(name: string): ((source: BurstSource) => FromPressure) | undefined {
  const number = PART_OF_RAMP.exec(name)?.[1];
  if (number === undefined) return undefined;
  return ({ features: { ramp, peak } }) => {
    const none = (value: NotEvaluated): FromPressure => ({ value, unit: 'kPa/s', steps: [] });
    if (isNotEvaluated(ramp)) return none(ramp);
    const part = ramp.segments[Number(number) - 1];
    if (!part)
      return none(
        notEvaluated(
          `the ramp has ${ramp.segments.length} part${ramp.segments.length === 1 ? '' : 's'} between 10 and 90 % of the peak`,
          'the method programmes as many holds as it asks parts of',
        ),
      );
    const { from, to, slope } = part;
    return {
      value: { kind: 'exact', value: slope },
      unit: 'kPa/s',
      steps: [
        {
          question: `How fast did the pressure rise in part ${number} of the ramp?`,
          numbers: { 'from, s': from, 'to, s': to, 'slope, kPa/s': slope },
          answer: `${inUnit('kPa/s')(slope)}, by the least squares line.`,
        },
      ],
      perPressure: slope / peak.value,
    };
  };
}

/** Of several programmed holds the one that fell shortest of what was asked. */
function leastFulfilled(holds: BurstFeatures['holds']) {
  const fulfilled = ({ asked, found }: { asked: number; found: HoldFound | undefined }) =>
    (found?.seconds ?? 0) / asked;
  return holds.reduce<BurstFeatures['holds'][number] | undefined>(
    (worst, hold) => (!worst || fulfilled(hold) < fulfilled(worst) ? hold : worst),
    undefined,
  );
}

import { type CharacteristicValue, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { median } from 'simple-statistics';
import type { Computed } from './characteristic.js';
import { correctionStep } from './correction-step.js';
import { indexOfLargest } from './failure.js';
import { NO_TEMPERATURE, type TrackSensor } from './heat.js';
import { controlCaution, controlStep } from './heat-control.js';
import type { FailureCandidate } from './heat-failure.js';
import { type HeatSource, inStage } from './heat-source.js';
import { gapsIn, type Stretch } from './heat-stretch.js';
import { firstAt } from './vented-zero.js';
import { inUnit, seconds } from './words.js';

const celsius = inUnit('Cel');
/** Length of record before a failure over which the temperature is taken, s. Common practice, no source. */
const BEFORE_FAILURE = 2;

export interface Peak {
  value: number;
  index: number;
  sensor: TrackSensor;
  stretch: Stretch;
}

/** The hottest filtered reading of any track sensor. */
export function peakOf({ stretches }: HeatSource): Peak {
  let peak: Peak | undefined;
  for (const stretch of stretches)
    for (const sensor of stretch.features.track) {
      const at = stretch.from + indexOfLargest(sensor.filtered.subarray(stretch.from, stretch.last + 1));
      const value = sensor.filtered[at] as number;
      if (!peak || value > peak.value) peak = { value, index: at, sensor, stretch };
    }
  if (!peak) throw new RangeError('peakOf: needs at least one stage with a track temperature.');
  return peak;
}

export const OPEN_THROUGHOUT = notEvaluated(
  'every track thermocouple was open for all of it, so there is no temperature to read',
  'a track sensor is connected',
);

const OPEN_AT_FAILURE = notEvaluated(
  'every track thermocouple was open when the part failed',
  'a track sensor is connected at that moment',
);

/** The track sensors that were open somewhere in the stages looked at: what they would have shown is not known. */
export function whyOpen({ stretches }: HeatSource): string[] {
  const channels = stretches.flatMap(({ features, from, last }) =>
    features.track.flatMap(({ channel, open }) => (open?.subarray(from, last + 1).includes(1) ? [channel] : [])),
  );
  return [...new Set(channels)].map((channel) => `${channel} was an open circuit for a part of it`);
}

/** Why the peak may have been higher than what was read. */
export function whyPeakHigher(source: HeatSource, { index, sensor, stretch }: Peak): string[] {
  const { time } = stretch.features.record;
  const [at, end] = [time[index] as number, time[stretch.last] as number];
  // Smoothing may move the peak by its window. What a sensor that gave out would have shown afterwards is unknown too.
  const window = valueIn(source.method.parameters.temperatureWindow, 's');
  const gap = gapsIn(stretch).find(({ from, to }) => (at >= from - window && at <= to + window) || to > end);
  return [
    ...(sensor.flatTop ? [`${sensor.channel} is cut off at full scale, ${celsius(sensor.flatTop.value)}`] : []),
    ...(gap ? [`the record has a gap at its peak, from ${gap.from} s to ${gap.to} s`] : []),
    ...whyOpen(source),
    ...source.unrecorded.map((passage) => `stage ${passage} has no record`),
  ];
}

/** Only the sensor that gave the value bears on it; other track sensors do not. */
export function fromSensor(source: HeatSource, sensor: string) {
  const tracks = source.stretches.flatMap(({ features }) => features.track.map(({ channel }) => channel));
  return (channel: string) => (channel === sensor ? 1 : tracks.includes(channel) ? 0 : undefined);
}

export function peakTemperature(source: HeatSource): Computed {
  const peak = peakOf(source);
  if (peak.value <= NO_TEMPERATURE) return { value: OPEN_THROUGHOUT, unit: 'Cel', steps: [] };
  const reasons = whyPeakHigher(source, peak);
  return {
    value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value: peak.value },
    unit: 'Cel',
    steps: [
      correctionStep(source.corrections.get(peak.sensor.channel), peak.sensor.channel),
      peakStep(source, peak),
      ...(reasons.length > 0
        ? [{ question: 'Is it known exactly?', numbers: {}, answer: `No, it is at least this: ${reasons.join('; ')}.` }]
        : []),
    ],
    sensitivity: fromSensor(source, peak.sensor.channel),
  };
}

export function peakStep(source: HeatSource, { value, index, sensor, stretch }: Peak): Step {
  return {
    question: 'How hot did the track get?',
    numbers: {
      'running median over, s': valueIn(source.method.parameters.temperatureWindow, 's'),
      'at, s': stretch.features.record.time[index] as number,
      'temperature, Cel': value,
    },
    answer: `${celsius(value)} at ${sensor.channel}, the hottest of ${stretch.features.track.length} track sensor${stretch.features.track.length === 1 ? '' : 's'}${inStage(source, stretch)}.`,
  };
}

/**
 * The temperature at which the part failed: of the hottest track sensor, the median of the last 2 s before. A part that
 * did not fail held at least its peak; one found broken of which the record shows no moment failed at or below it.
 */
export function temperatureAtFailure(source: HeatSource): Computed {
  const { failure, step, stretch } = source.survival;
  const peak = peakOf(source);
  if (peak.value <= NO_TEMPERATURE) return { value: OPEN_THROUGHOUT, unit: 'Cel', steps: [] };
  if (failure) {
    const at = beforeFailure(stretch, failure);
    if (at.value <= NO_TEMPERATURE) return { value: OPEN_AT_FAILURE, unit: 'Cel', steps: [failureStep(source)] };
    return {
      value: { kind: at.open ? 'atLeast' : 'exact', value: at.value },
      unit: 'Cel',
      steps: [
        controlStep(source),
        correctionStep(source.corrections.get(at.channel), at.channel),
        failureStep(source),
        at.step,
      ],
      sensitivity: fromSensor(source, at.channel),
      caution: controlCaution(source),
    };
  }
  const found = step && beforeFailure(stretch, step);
  const at = found && found.value > NO_TEMPERATURE ? found : undefined;
  const higher = whyPeakHigher(source, peak);
  const ifBroken: CharacteristicValue | NotEvaluated = at
    ? { kind: at.open ? 'atLeast' : 'exact', value: at.value }
    : higher.length > 0
      ? notEvaluated(
          `the record shows no moment of failure, and its peak is known from below only: ${higher.join('; ')}`,
          'the record is whole, or shows when the part failed',
        )
      : { kind: 'atMost', value: peak.value };
  return {
    value: { kind: 'atLeast', value: peak.value },
    ifBroken,
    unit: 'Cel',
    steps: [
      controlStep(source),
      correctionStep(source.corrections.get(peak.sensor.channel), peak.sensor.channel),
      failureStep(source),
      ...(at ? [at.step] : []),
      peakStep(source, peak),
    ],
    sensitivity: fromSensor(source, (at ?? { channel: peak.sensor.channel }).channel),
    caution: controlCaution(source),
  };
}

function beforeFailure({ features }: Stretch, { index, time: at }: FailureCandidate) {
  const { time } = features.record;
  const first = Math.min(firstAt(time, at - BEFORE_FAILURE), index);
  const each = features.track.map(({ channel, raw }) => ({
    channel,
    value: median(Array.from(raw.subarray(first, index + 1))),
  }));
  const hottest = each.reduce((most, one) => (one.value > most.value ? one : most));
  return {
    ...hottest,
    open: each.some(({ value }) => value <= NO_TEMPERATURE),
    step: {
      question: 'How hot was the track just before?',
      numbers: { 'from, s': time[first] as number, 'to, s': at, 'temperature, Cel': hottest.value },
      answer: `${celsius(hottest.value)} at ${hottest.channel}, the hottest: median of ${index + 1 - first} readings.`,
    } satisfies Step,
  };
}

/** What the record shows of a failure, and every candidate for its moment. */
export function failureStep(source: HeatSource): Step {
  const { candidates, failure, step, stated, stretch } = source.survival;
  return {
    question: 'Did something fail, and when?',
    numbers: Object.fromEntries(candidates.map(({ by, time }) => [`${by}, s`, time])),
    answer: failure
      ? stated
        ? `As a person says, at ${seconds(failure.time)}${inStage(source, stretch)}.`
        : `Yes, at ${seconds(failure.time)}${inStage(source, stretch)}, the first of what the record shows: the tyre lost its pressure.`
      : step
        ? `The record alone does not say: the ${step.by} ended at once at ${seconds(step.time)}${inStage(source, stretch)}. Where the examination finds the part broken, that is taken as the moment.`
        : 'The record shows no failure.',
  };
}

import { notEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { correctionStep } from './correction-step.js';
import { indexOfLargest } from './failure.js';
import { HEAT_CHANNELS, NO_TEMPERATURE, type TrackSensor } from './heat.js';
import { type HeatSource, inStage } from './heat-source.js';
import type { Stretch } from './heat-stretch.js';
import { fromSensor, OPEN_THROUGHOUT, peakOf, peakStep, whyPeakHigher } from './heat-temperatures.js';
import { runningMedian } from './running-median.js';
import { windowSamples } from './window-samples.js';
import { inUnit } from './words.js';

const celsius = inUnit('Cel');
const kelvin = inUnit('K');

interface Rise {
  value: number;
  index: number;
  room: number;
  sensor: TrackSensor;
  stretch: Stretch;
}

/**
 * How far did the track warm above the room? The largest difference of a filtered track temperature and the temperature of
 * the room at the same moment, both by the running median of the method's window, K.
 */
export function peakRise(source: HeatSource): Computed {
  const { stretches, method } = source;
  const without = stretches.find(({ features }) => features.record.room === undefined);
  if (without)
    return {
      value: notEvaluated('the temperature of the room was not recorded', 'the rig records it beside the track'),
      unit: 'K',
      steps: [],
    };
  const rise = stretches.map((one) => riseOf(one, valueIn(method.parameters.temperatureWindow, 's')));
  const most = rise.reduce((a, b) => (b && (!a || b.value > a.value) ? b : a));
  if (!most) return { value: OPEN_THROUGHOUT, unit: 'K', steps: [] };
  const { value, index, room, sensor, stretch } = most;
  const reasons = whyPeakHigher(source, { value, index, sensor, stretch });
  const sensitivity = fromSensor(source, sensor.channel);
  return {
    value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value },
    unit: 'K',
    steps: [
      correctionStep(source.corrections.get(sensor.channel), sensor.channel),
      {
        question: 'How far did the track warm above the room?',
        numbers: {
          'at, s': stretch.features.record.time[index] as number,
          'track, Cel': value + room,
          'room, Cel': room,
          'rise, K': value,
        },
        answer: `${kelvin(value)} at ${sensor.channel}${inStage(source, stretch)}, where the room had ${celsius(room)}${reasons.length > 0 ? `; at least this: ${reasons.join('; ')}` : ''}.`,
      },
    ],
    sensitivity: (channel) => (channel === HEAT_CHANNELS.room ? -1 : sensitivity(channel)),
  };
}

function riseOf({ features, from, last, ...stretch }: Stretch, window: number): Rise | undefined {
  const { room, steps } = features.record;
  if (!room) return undefined;
  const air = runningMedian(room, windowSamples(window, steps.period));
  let most: Rise | undefined;
  for (const sensor of features.track) {
    const rise = sensor.filtered
      .subarray(from, last + 1)
      .map((value, i) =>
        value <= NO_TEMPERATURE || (air[from + i] as number) <= NO_TEMPERATURE
          ? NO_TEMPERATURE
          : value - (air[from + i] as number),
      );
    const at = indexOfLargest(rise);
    const value = rise[at] as number;
    if (value <= NO_TEMPERATURE || (most && value <= most.value)) continue;
    const index = from + at;
    most = { value, index, room: air[index] as number, sensor, stretch: { features, from, last, ...stretch } };
  }
  return most;
}

/**
 * How far below its glass transition did the resin stay? The transition as the product (or else the method) states it,
 * wet where a wet one is stated, less the peak of the track; K, negative where the peak lay above. Nothing is taken off for
 * moisture that nobody stated.
 */
export function marginToGlassTransition(source: HeatSource): Computed {
  const stated = source.glassTransition;
  if (!stated)
    return {
      value: notEvaluated(
        'neither the product nor the method states the glass transition of the resin',
        'the product states it with its source',
      ),
      unit: 'K',
      steps: [],
    };
  const peak = peakOf(source);
  if (peak.value <= NO_TEMPERATURE) return { value: OPEN_THROUGHOUT, unit: 'K', steps: [] };
  const transition = valueIn(stated.wet ?? stated.dry, 'Cel');
  const margin = transition - peak.value;
  const reasons = whyPeakHigher(source, peak);
  const follows = fromSensor(source, peak.sensor.channel);
  const state = stated.wet ? 'wet' : 'dry';
  return {
    value: { kind: reasons.length > 0 ? 'atMost' : 'exact', value: margin },
    unit: 'K',
    steps: [
      correctionStep(source.corrections.get(peak.sensor.channel), peak.sensor.channel),
      peakStep(source, peak),
      {
        question: 'How far below its glass transition did the resin stay?',
        numbers: {
          [`glass transition (${state}), Cel`]: transition,
          source: stated.source,
          'peak, Cel': peak.value,
          'margin, K': margin,
        },
        answer: `${margin >= 0 ? `${kelvin(margin)} below` : `It did not: ${kelvin(-margin)} above`} ${celsius(transition)}, the ${state} transition by ${stated.source}${reasons.length > 0 ? `; the margin is at most this: ${reasons.join('; ')}` : ''}.`,
      },
    ],
    sensitivity: (channel) => {
      const change = follows(channel);
      return change === undefined ? undefined : -change;
    },
    caution: `against the ${state} glass transition by ${stated.source}, which was not measured on this specimen`,
  };
}

import type { BurstParameters, EndReason, MethodChannel } from '@breakbook/lab';
import type { BurstFeatures } from '../features/burst.js';
import type { TimeSteps } from '../files/time-steps.js';
import { drops } from './drops.js';
import { endingCheck } from './ending.js';
import type { Finding } from './finding.js';
import { holdChecks } from './hold.js';
import { lateSensor } from './late-sensor.js';
import { rampInBand } from './ramp-in-band.js';
import { clipping, rangeUsed } from './range.js';
import { redundantSensors } from './redundant-sensors.js';
import { gaps, samplingRate } from './sampling.js';
import { spikes } from './spikes.js';
import { ventedStart, zeroDrift } from './zero.js';

export interface BurstCheckInput {
  time: Float64Array;
  steps: TimeSteps;
  features: BurstFeatures;
  parameters: BurstParameters;
  channels: readonly MethodChannel[];
  /** Channel the features were read from. */
  channel: string;
  /** In kPa, corrected; left out where the placement is not known. */
  fullScale: number | undefined;
  second: { channel: string; pressure: Float64Array } | undefined;
  endReason: EndReason | undefined;
}

/** Everything that says whether a burst record is fit to be judged, in the order a reviewer would ask. */
export function burstChecks(input: BurstCheckInput): Finding[] {
  const { time, steps, features, parameters, channels, channel, fullScale, second, endReason } = input;
  const about = [samplingRate(steps, channels), gaps(steps, { periods: parameters.gapPeriods }, channel)];
  const start = ventedStart(time, features, parameters, fullScale, channel);
  const range = rangeUsed(time, features, parameters, fullScale, channel);
  // Without a rise in pressure there is no peak, ramp or end to look at.
  if (!features.pressurised) return [...about, start, range, notLoaded(channel, time)];
  return [
    ...about,
    start,
    zeroDrift(time, features, parameters, fullScale, channel),
    range,
    clipping(features, channel),
    spikes(time, features, parameters, channel),
    ...(second
      ? [
          redundantSensors(time, features, second, parameters),
          ...lateSensor(time, features, second, steps.period, parameters),
        ]
      : []),
    rampInBand(time, features, parameters, channel),
    drops(time, features, channel),
    ...holdChecks(features, channel),
    endingCheck(time, features, endReason, channel),
  ];
}

function notLoaded(channel: string, time: Float64Array): Finding {
  return {
    check: {
      check: 'loading',
      question: 'Was the specimen loaded at all?',
      outcome: 'fail',
      finding: 'The readings never rise above the noise of the vented start.',
      action: 'Check that this is the record of the run, and that the sensor was connected.',
      place: { channel, from: time[0] as number, to: time.at(-1) as number },
    },
    signal: 'signal.no-event',
  };
}

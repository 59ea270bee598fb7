import type { EndReason, HeatMethod } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { HEAT_CHANNELS, type HeatFeatures } from '../../features/heat.js';
import { type Survival, tyreFall } from '../../features/heat-failure.js';
import { brakedSpan, type Stretch } from '../../features/heat-stretch.js';
import { fullScaleReached } from '../clipping.js';
import type { Finding } from '../finding.js';
import { gaps, samplingRate } from '../sampling.js';
import { interruptions, stageLength } from './course.js';
import { heatEnding } from './ending.js';
import { bandChecks } from './in-band.js';
import { infraredAgrees } from './infrared.js';
import { lateTrack } from './late-track.js';
import { coldStart, roomTemperature, tyreAtStart } from './start.js';
import { swappedChannels } from './swapped.js';
import { sensorAttached, tracksAgree } from './track-sensors.js';

/** What says whether one file is a good record. */
export function heatRecordChecks(
  { record, track, forceFlatTop, longestGap }: HeatFeatures,
  method: HeatMethod,
): Finding[] {
  return [
    samplingRate(record.steps, method.channels),
    gaps(record.steps, { seconds: longestGap }, HEAT_CHANNELS.force),
    fullScaleReached(HEAT_CHANNELS.force, forceFlatTop, 'N'),
    ...track.map(({ channel, flatTop }) => fullScaleReached(channel, flatTop, 'Cel')),
  ];
}

/** What says whether one stage was run as the method asks, in the order a reviewer would ask. */
export function stageChecks(
  stretch: Stretch,
  { parameters }: HeatMethod,
  { survival, first }: { survival: Survival; first: boolean },
): Finding[] {
  const start = first ? [coldStart(stretch, parameters), ...tyreAtStart(stretch, parameters)] : [];
  if (!brakedSpan(stretch)) return [...start, neverBraked(stretch, valueIn(parameters.offPower, 'W'))];
  const ended = stretch === survival.stretch && (survival.failure !== undefined || survival.step !== undefined);
  return [
    ...start,
    ...roomTemperature(stretch, parameters),
    ...bandChecks(stretch, parameters),
    // Where stages are not told apart, the cooling between them would look like an interruption.
    ...(stretch.programme ? [interruptions(stretch, parameters)] : []),
    ...stageLength(stretch, ended),
    ...stretch.features.track.map((sensor) => sensorAttached(stretch, sensor, parameters)),
    ...tracksAgree(stretch, parameters),
    ...infraredAgrees(stretch, parameters),
    ...stretch.features.track.flatMap((sensor) => lateTrack(stretch, sensor, parameters)),
    ...swappedChannels(stretch, parameters),
  ];
}

/** What says whether the run as a whole is fit to be judged. */
export function heatRunChecks(
  stretches: readonly Stretch[],
  survival: Survival,
  unrecorded: readonly number[],
  { parameters }: HeatMethod,
  endReason: EndReason | undefined,
): Finding[] {
  const earlier = stretches
    .filter((one) => one !== survival.stretch)
    .flatMap((one) => {
      const fall = tyreFall(one, parameters);
      return fall ? [fall] : [];
    });
  return [
    ...(unrecorded.length > 0 ? [withoutRecord(unrecorded)] : []),
    ...(brakedSpan(survival.stretch) ? [heatEnding(survival, earlier, endReason)] : []),
  ];
}

function withoutRecord(passages: readonly number[]): Finding {
  return {
    check: {
      check: 'record',
      question: 'Is every stage recorded?',
      outcome: 'fail',
      finding: `Stage ${passages.join(', ')} has no record: what was put in there is not known.`,
      action: 'Send the file of that stage. Sums over the run are at least what the others show.',
    },
  };
}

function neverBraked({ features, from, last }: Stretch, off: number): Finding {
  const { time } = features.record;
  return {
    check: {
      check: 'loading',
      question: 'Was the specimen loaded at all?',
      outcome: 'fail',
      finding: `The braking power never rises above ${off} W.`,
      action: 'Check that this is the record of the stage, and that force and speed were connected, with their signs.',
      place: { channel: HEAT_CHANNELS.force, from: time[from] as number, to: time[last] as number },
    },
    signal: 'signal.no-event',
  };
}

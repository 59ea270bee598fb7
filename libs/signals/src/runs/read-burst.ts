import {
  type BurstMethod,
  type Characteristic,
  isNotEvaluated,
  type LossOfPressure,
  type Run,
  type Trace,
  type TraceEvent,
} from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { burstChecks } from '../checks/burst-checks.js';
import { burstConditions } from '../checks/burst-conditions.js';
import { calibrationInDate } from '../checks/calibration.js';
import { channelChecks } from '../checks/channels/channel-checks.js';
import type { Finding } from '../checks/finding.js';
import { proposedValidity } from '../checks/proposed-validity.js';
import { type BurstFeatures, burstFeatures } from '../features/burst.js';
import { burstCharacteristic, RIM_PRESSURE, SECOND_RIM_PRESSURE } from '../features/burst-characteristics.js';
import type { BurstSource } from '../features/burst-source.js';
import { letGo, lossIn } from '../features/failure.js';
import { firstAt, ventedZero } from '../features/vented-zero.js';
import { keyedCharacteristic, keyedReadings } from './keyed.js';
import { keyedAgainstTrace } from './keyed-against-trace.js';
import { onlyRecord } from './passages.js';
import { described, signalFlag, sources, uncertaintiesOf } from './reading.js';
import {
  channelIn,
  type DrawnChannel,
  drawnChannels,
  neededChannel,
  type ReadFile,
  type ReadWith,
  readRunFile,
  writtenRecords,
} from './run-file.js';
import type { ReadRun, RunInput } from './run-input.js';
import { sampleAt, statedInstant } from './stated-instants.js';

/** A burst: one loading, one file. */
export function readBurstRun(method: BurstMethod, input: RunInput, using: ReadWith): ReadRun {
  const { files, run, markedMaximum, onProgress } = input;
  const { parameters } = method;
  const zeroTime = valueIn(parameters.zeroTime, 's');
  const read = readRunFile(
    onlyRecord(files, run),
    using,
    {
      gap: { periods: parameters.gapPeriods },
      rows: parameters.despikeSamples,
      seconds: zeroTime,
      because: `the ${zeroTime} s from which the zero is taken`,
      triggered: false,
    },
    onProgress,
  );
  const rim = neededChannel(read, RIM_PRESSURE, 'pressure', method);
  const second = channelIn(read, SECOND_RIM_PRESSURE, 'pressure');

  const stated = statedInstant(run, 'failure');
  const features = burstFeatures(
    {
      time: read.time,
      pressure: rim.values,
      steps: read.steps,
      ...(rim.fullScale === undefined ? {} : { fullScale: rim.fullScale }),
    },
    method.parameters,
    stated && {
      fallen: sampleAt(stated, { time: read.time, file: read.file.name }),
      loss: stated.moved.loss ?? 'burst',
    },
  );
  const source: BurstSource = {
    time: read.time,
    features,
    method,
    corrected: rim.correction,
    calibrations: uncertaintiesOf([read]),
    period: read.steps.period,
    beside: drawnChannels(read).map(({ channel: { channel }, time, values }) => ({ channel, time, values })),
    keyed: (of, wanted) => keyedReadings(of, wanted, run),
    conditions: run.conditions,
    ...(markedMaximum ? { markedMaximum } : {}),
  };
  const characteristics = method.characteristics.map(
    (wanted): Characteristic => burstCharacteristic(wanted, source) ?? keyedCharacteristic(wanted, run),
  );
  const findings: Finding[] = [
    ...read.channels.map(({ sensor }) => calibrationInDate(sensor)),
    ...burstChecks({
      time: read.time,
      steps: read.steps,
      features,
      parameters: method.parameters,
      channels: method.channels,
      channel: RIM_PRESSURE,
      fullScale: rim.fullScale,
      second: second ? { channel: second.channel.channel, pressure: second.values } : undefined,
      endReason: run.examination?.endReason,
    }),
    ...burstConditions(source, lossByExamination(method, run)),
    ...(features.pressurised
      ? channelChecks(writtenRecords(read, [RIM_PRESSURE, SECOND_RIM_PRESSURE]), read.time, {
          from: firstAt(read.time, isNotEvaluated(features.ramp) ? (read.time[0] as number) : features.ramp.t10),
          last: features.loadedTo,
        })
      : []),
    ...keyedAgainstTrace(method, run, characteristics),
  ];
  const checks = findings.map(({ check }) => check);
  const flags = [...read.flags, ...findings.flatMap((one) => signalFlag(one, read.file.name))];

  return {
    reading: {
      ...described(method, run),
      ...sources([read]),
      flags,
      checks,
      characteristics,
      events: eventsOf(read.time, features, stated ? undefined : lossByExamination(method, run)),
      proposedValidity: proposedValidity(checks, flags.length),
    },
    traces: drawnChannels(read).map((one) => traceOf(one, read, features, method)),
  };
}

/** A channel as it is drawn and judged: gauge pressures from their own vented zero. */
function traceOf(
  { channel, unit, values, time }: DrawnChannel,
  read: ReadFile,
  features: BurstFeatures,
  method: BurstMethod,
): Trace {
  const common = {
    channel: channel.channel,
    unit,
    ...(channel.reference ? { reference: channel.reference } : {}),
    time,
  };
  if (channel.channel === RIM_PRESSURE) return { ...common, time: read.time, values: features.raw };
  if (channel.kind !== 'pressure' || channel.reference === 'absolute') return { ...common, values };
  const start = time[0] as number;
  const zero = ventedZero(time, values, start, start + valueIn(method.parameters.zeroTime, 's'));
  return { ...common, values: isNotEvaluated(zero) ? values : values.map((value) => value - zero.zero) };
}

/**
 * How the pressure was lost by the mode that the examination names first: the record of a rim that burst and that of a
 * tyre which came off look alike.
 */
function lossByExamination({ failureModes }: BurstMethod, { examination }: Run): LossOfPressure | undefined {
  const [first] = examination?.modes ?? [];
  return failureModes.find(({ code }) => code === first?.code)?.loss;
}

/** Moments of the record; the failure with how the pressure was lost, where it was not by a burst. */
function eventsOf(
  time: Float64Array,
  { pressurised, peak, despiked, ending, ramp, holds }: BurstFeatures,
  examined: LossOfPressure | undefined,
): TraceEvent[] {
  if (!pressurised) return [];
  const at = (name: string, index: number): TraceEvent => ({
    name,
    time: time[index] as number,
    value: despiked[index] as number,
    channel: RIM_PRESSURE,
  });
  const failure = (): TraceEvent[] => {
    const loss = ending.ending === 'as a person says' ? ending.loss : letGo(ending) ? (examined ?? 'burst') : 'leak';
    const index = ending.ending === 'leak' ? ending.from : lossIn(ending)?.fallen;
    return index === undefined ? [] : [{ ...at('failure', index), ...(loss === 'burst' ? {} : { loss }) }];
  };
  const level = (name: string, when: number, value: number): TraceEvent => ({
    name,
    time: when,
    value,
    channel: RIM_PRESSURE,
  });
  return [
    ...(isNotEvaluated(ramp)
      ? []
      : [level('10 % of the peak', ramp.t10, 0.1 * peak.value), level('90 % of the peak', ramp.t90, 0.9 * peak.value)]),
    ...holds.flatMap(({ name, found }) =>
      found
        ? [level(`hold begins: ${name}`, found.entry, found.mean), level(`hold ends: ${name}`, found.exit, found.mean)]
        : [],
    ),
    at('peak', peak.index),
    ...failure(),
  ].sort((a, b) => a.time - b.time);
}

import {
  type BurstMethod,
  type Calibration,
  type Characteristic,
  type Check,
  isNotEvaluated,
  type Layout,
  type Method,
  type Problem,
  type Quantity,
  type Reading,
  Refusal,
  type Rig,
  type Run,
  SOFTWARE,
  type Trace,
  type TraceEvent,
} from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { burstChecks } from '../checks/burst-checks.js';
import { calibrationInDate } from '../checks/calibration.js';
import { type Finding } from '../checks/finding.js';
import { proposedValidity } from '../checks/proposed-validity.js';
import { type BurstFeatures, burstFeatures } from '../features/burst.js';
import { burstCharacteristic, RIM_PRESSURE, SECOND_RIM_PRESSURE } from '../features/burst-characteristics.js';
import { ventedZero } from '../features/vented-zero.js';
import { type CorrectedChannel } from './corrected-channel.js';
import { keyedCharacteristic } from './keyed.js';
import { keyedAgainstTrace } from './keyed-against-trace.js';
import { onlyFile, type ReadFile, readRunFile, type SentFile } from './run-file.js';

export interface RunInput {
  method: Method;
  /** Needed where the method reads a file. */
  layout?: Layout;
  rig?: Rig;
  calibrations: readonly Calibration[];
  files: readonly SentFile[];
  run: Run;
  /** Pressure marked on the part, for the safety ratio. */
  markedMaximum?: Quantity;
  /** Bytes read so far, and in all. */
  onProgress?: (done: number, total: number) => void;
}

/** What a run says before any limit is known, and its channels as they are judged. */
export interface ReadRun {
  reading: Reading;
  traces: Trace[];
}

/**
 * What did the specimen do? Reads the files of one run, corrects them once by the calibrations in force on its (UTC) day,
 * checks whether they are fit to be judged, and works out the characteristics its method names. It knows no limit.
 *
 * Throws a `Refusal` where the files cannot be read, or are not of this run.
 */
export function readRun(input: RunInput): ReadRun {
  const { method, run } = input;
  if (run.method !== method.method || run.methodRevision !== method.revision)
    throw new Error(
      `readRun: run ${run.run} was made by ${run.method} rev. ${run.methodRevision}; got ${method.method} rev. ${method.revision}`,
    );
  switch (method.test) {
    case 'table':
      return readTableRun(input);
    case 'burst':
      return readBurstRun(method, input);
    default:
      throw new Error(`readRun: runs of a ${method.test} method are not read here`);
  }
}

/** Values keyed from a results table: no trace, so nothing to check in one. */
function readTableRun({ method, run, files }: RunInput): ReadRun {
  const characteristics = method.characteristics.map((wanted) => keyedCharacteristic(wanted, run));
  return {
    reading: {
      ...described(method, run),
      files: files.map(({ name, sha256, bytes }) => ({ name, sha256, bytes: bytes.length, rows: 0 })),
      calibrations: [],
      flags: [],
      checks: [],
      characteristics,
      events: [],
      proposedValidity: characteristics.every(({ value }) => !isNotEvaluated(value)) ? 'valid' : 'needs a look',
    },
    traces: [],
  };
}

function readBurstRun(
  method: BurstMethod,
  { layout, rig, calibrations, files, run, markedMaximum, onProgress }: RunInput,
): ReadRun {
  if (!layout || !rig) throw new Error(`readRun: method ${method.method} reads a file; give the layout and the rig`);
  if (run.rig !== rig.rig || layout.rig !== rig.rig)
    throw new Error(`readRun: run ${run.run} was made on rig ${run.rig}; got rig ${rig.rig}, layout of ${layout.rig}`);
  const file = onlyFile(files, run);
  const read = readRunFile(file, { method, layout, rig, calibrations, run }, onProgress);
  const rim = rimPressureOf(read, method, file);
  const second = read.channels.find(
    ({ channel }) => channel.kind === 'pressure' && channel.channel === SECOND_RIM_PRESSURE,
  );

  const features = burstFeatures(
    {
      time: read.time,
      pressure: rim.values,
      steps: read.steps,
      ...(rim.fullScale === undefined ? {} : { fullScale: rim.fullScale }),
    },
    method.parameters,
  );
  const characteristics = method.characteristics.map(
    (wanted): Characteristic =>
      burstCharacteristic(wanted, {
        time: read.time,
        features,
        method,
        corrected: rim.correction,
        calibrations: new Map(
          read.channels.flatMap((one) => (one.uncertainty ? [[one.channel.channel, one.uncertainty]] : [])),
        ),
        ...(markedMaximum ? { markedMaximum } : {}),
      }) ?? keyedCharacteristic(wanted, run),
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
    ...keyedAgainstTrace(method, run, characteristics),
  ];
  const checks = findings.map(({ check }) => check);
  const flags = [...read.flags, ...findings.flatMap((one) => signalFlag(one, file.name))];

  return {
    reading: {
      ...described(method, run),
      files: [{ name: file.name, sha256: file.sha256, bytes: file.bytes.length, rows: read.rows }],
      calibrations: read.channels.flatMap(({ sensor: { channel, sensor, calibration, day } }) =>
        sensor && calibration
          ? [{ channel, sensor, calibration: calibration.calibration, validOnDay: day <= calibration.due }]
          : [],
      ),
      flags,
      checks,
      characteristics,
      events: eventsOf(read.time, features),
      proposedValidity: proposedValidity(checks, flags.length),
    },
    traces: read.channels.map((one) => traceOf(one, read, features, method)),
  };
}

function described(method: Method, run: Run) {
  return { run: run.run, method: { method: method.method, revision: method.revision }, software: SOFTWARE };
}

function rimPressureOf(read: ReadFile, method: BurstMethod, file: SentFile): CorrectedChannel {
  const rim = read.channels.find(({ channel }) => channel.channel === RIM_PRESSURE && channel.kind === 'pressure');
  if (rim) return rim;
  throw new Refusal({
    code: 'header.missing-channel',
    file: file.name,
    channel: RIM_PRESSURE,
    detail: `${file.name}: a burst is read from channel ${RIM_PRESSURE}, and method ${method.method} rev. ${method.revision} finds none in this file.`,
    expected: `a column for channel ${RIM_PRESSURE}`,
    action: 'Have the method list the channel as a required pressure, and the layout name its column.',
  });
}

/** A check that did not pass raises its flag on the run, in the words of the check. */
function signalFlag({ check, signal }: Finding, file: string): Problem[] {
  if (!signal) return [];
  return [
    {
      code: signal,
      file,
      detail: `${file}: ${check.finding}`,
      ...(check.place ? { channel: check.place.channel } : {}),
      action: check.action ?? actionFor(check),
    },
  ];
}

function actionFor({ check }: Check): string {
  return `Confirm what the check "${check}" found; the value is known from one side only.`;
}

/** A channel as it is drawn and judged: gauge pressures from their own vented zero. */
function traceOf(
  { channel, unit, values }: CorrectedChannel,
  { time }: ReadFile,
  features: BurstFeatures,
  method: BurstMethod,
): Trace {
  const common = {
    channel: channel.channel,
    unit,
    ...(channel.reference ? { reference: channel.reference } : {}),
    time,
  };
  if (channel.channel === RIM_PRESSURE) return { ...common, values: features.raw };
  if (channel.kind !== 'pressure' || channel.reference === 'absolute') return { ...common, values };
  const start = time[0] as number;
  const zero = ventedZero(time, values, start, start + valueIn(method.parameters.zeroTime, 's'));
  return { ...common, values: isNotEvaluated(zero) ? values : values.map((value) => value - zero.zero) };
}

function eventsOf(
  time: Float64Array,
  { pressurised, peak, despiked, ending, ramp, holds }: BurstFeatures,
): TraceEvent[] {
  if (!pressurised) return [];
  const at = (name: string, index: number): TraceEvent => ({
    name,
    time: time[index] as number,
    value: despiked[index] as number,
    channel: RIM_PRESSURE,
  });
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
    ...(ending.ending === 'burst' ? [at('failure', ending.fallen)] : []),
  ].sort((a, b) => a.time - b.time);
}

import {
  type Characteristic,
  type Check,
  type ImpactMethod,
  isNotEvaluated,
  type MethodCharacteristic,
  Refusal,
  type Run,
  type RunPassage,
  type Trace,
  type TraceEvent,
} from '@breakbook/lab';
import { sameDimension, valueIn } from '@breakbook/units';
import { calibrationInDate } from '../checks/calibration.js';
import { channelChecks } from '../checks/channels/channel-checks.js';
import type { Finding } from '../checks/finding.js';
import { GAP, strikeChecks } from '../checks/impact/impact-checks.js';
import { impactEnding, series } from '../checks/impact/series-checks.js';
import { type KeyedReadings, setUpChecks, strikePoint } from '../checks/impact/set-up-checks.js';
import { proposedValidity } from '../checks/proposed-validity.js';
import { characteristicOf } from '../features/characteristic.js';
import { impactCharacteristic, strikeCharacteristic } from '../features/impact-characteristics.js';
import {
  DISPLACEMENT,
  type ImpactSource,
  motionOf,
  STRIKER_FORCE,
  type Strike,
  wholeContact,
} from '../features/impact-source.js';
import { impactSpeed } from '../features/impact-speed.js';
import { pressureLoss } from '../features/pressure-loss.js';
import { runOut } from '../features/run-out.js';
import { type StatedContact, strikeFeatures } from '../features/strike.js';
import { keyedCharacteristic, keyedForPassage, keyedReadings } from './keyed.js';
import { keyedAgainstTrace } from './keyed-against-trace.js';
import { type RunRecord, recordsOf, strikePerFile } from './passages.js';
import { described, inFilesOrder, signalFlag, sources, uncertaintiesOf } from './reading.js';
import { channelIn, drawnChannels, neededChannel, type ReadFile, readRunFile, writtenRecords } from './run-file.js';
import { type ReadRun, type RunInput, readWith } from './run-input.js';
import { sampleAt, statedInstant } from './stated-instants.js';

/** An impact run: its strikes are passages, each with its own file; a method that reads no force needs none. */
export function readImpactRun(method: ImpactMethod, input: RunInput): ReadRun {
  const { files, run, onProgress } = input;
  const { records, unrecorded } = recordsOf(files, run, method);
  strikePerFile(records, run);
  const progress = inFilesOrder(files, onProgress);
  const reads = records.map((record) => readStrike(record, method, input, progress(record.file)));
  const strikes = [
    ...reads.map((read) => strikeOf(read.passages[0], read, method, run)),
    ...unrecorded.map((passage) => strikeOf(passage, undefined, method, run)),
  ].sort((a, b) => a.number - b.number);
  if (strikes.length === 0) strikes.push(strikeOf(undefined, undefined, method, run));

  const source: ImpactSource = { method, strikes, calibrations: uncertaintiesOf(reads) };
  const characteristics = method.characteristics.map((wanted) => characteristicIn(wanted, source, run));

  const keyed: KeyedReadings = (of, wanted) => keyedReadings(of, wanted, run);
  const findings: { finding: Finding; strike?: Strike }[] = [
    ...reads.flatMap((read) =>
      read.channels.map(({ sensor }) => ({
        finding: calibrationInDate(sensor),
        ...only(strikes.find(({ file }) => file === read.file.name)),
      })),
    ),
    ...strikes.flatMap((strike) =>
      [...strikePoint(strike, strikes.length, method, keyed), ...strikeChecks(strike, method)].map((finding) => ({
        finding,
        strike,
      })),
    ),
    ...reads.flatMap((read) => {
      const strike = strikes.find(({ file }) => file === read.file.name);
      return lookedAt(read, strike).map((finding) => ({ finding, ...only(strike) }));
    }),
    ...[
      ...setUpChecks(run, method, keyed),
      ...series(strikes, method),
      impactEnding(strikes, run.examination),
      ...keyedAgainstTrace(method, run, characteristics),
    ].map((finding) => ({ finding })),
  ];
  const checks = findings.map(
    ({ finding, strike }): Check => ({ ...finding.check, ...(strike?.passage ? { passage: strike.number } : {}) }),
  );
  const flags = [
    ...reads.flatMap((read) => read.flags),
    ...findings.flatMap(({ finding, strike }) => (strike?.file === undefined ? [] : signalFlag(finding, strike.file))),
  ];
  return {
    reading: {
      ...described(method, run),
      ...sources(reads),
      flags,
      checks,
      characteristics,
      ...(strikes.length > 1
        ? {
            passages: strikes.map((strike) => ({
              passage: strike.number,
              title: strike.passage?.title ?? `strike ${strike.number}`,
              ...(strike.file === undefined ? {} : { file: strike.file }),
              characteristics: method.characteristics.flatMap((wanted) =>
                meansOtherwise(wanted) ? [] : (strikeCharacteristic(wanted, strike, source) ?? []),
              ),
            })),
          }
        : {}),
      events: strikes.flatMap(eventsOf),
      proposedValidity: proposedValidity(checks, flags.length),
    },
    traces: reads.flatMap((read) => {
      const strike = strikes.find(({ file }) => file === read.file.name);
      return strike ? tracesOf(read, strike, method) : [];
    }),
  };
}

/**
 * Names that were keyed before they were worked out, with the unit they are worked out in. What a person read stands where
 * the record lacks it, and where the method means another kind of quantity by the name.
 */
const ONCE_KEYED: readonly [RegExp, string][] = [
  [/^stiffness$/, 'N/mm'],
  [/^restitution$/, '1'],
  [/^onsetEnergy$/, 'J'],
  [/^pressureLoss/, '1'],
];

function onceKeyed(characteristic: string): string | undefined {
  return ONCE_KEYED.find(([name]) => name.test(characteristic))?.[1];
}

function meansOtherwise({ characteristic, unit }: MethodCharacteristic): boolean {
  const ours = onceKeyed(characteristic);
  return ours !== undefined && !sameDimension(ours, unit);
}

function characteristicIn(wanted: MethodCharacteristic, source: ImpactSource, run: Run): Characteristic {
  const { characteristic } = wanted;
  if (meansOtherwise(wanted)) return keyedCharacteristic(wanted, run);
  const keyed =
    runOut(characteristic, run, (of) => keyedReadings(of, { kind: 'length', unit: 'mm' }, run)) ??
    pressureLoss(characteristic, (of, kindAndUnit) => keyedReadings(of, kindAndUnit, run));
  const computed = keyed ? characteristicOf(wanted, keyed, source.calibrations) : impactCharacteristic(wanted, source);
  const lacking = onceKeyed(characteristic) !== undefined && computed && isNotEvaluated(computed.value);
  const stands = lacking && keyedReadings(characteristic, wanted, run).length > 0;
  return computed && !stands ? computed : keyedCharacteristic(wanted, run);
}

/** The force as it stands in the file. */
function lookedAt(read: ReadFile, strike: Strike | undefined): Finding[] {
  const contact = strike?.features?.contact;
  if (!contact) return [];
  const records = writtenRecords(read, [STRIKER_FORCE, DISPLACEMENT]);
  return channelChecks(records, read.time, { from: contact.from, last: contact.to });
}

function only(strike: Strike | undefined): { strike?: Strike } {
  return strike ? { strike } : {};
}

function readStrike(
  record: RunRecord,
  method: ImpactMethod,
  input: RunInput,
  onProgress: ((done: number, total: number) => void) | undefined,
): ReadFile {
  const baseline = valueIn(method.parameters.baseline, 's');
  const needs = {
    gap: GAP,
    rows: 0,
    seconds: baseline,
    because: `the ${baseline} s from which the zero is taken`,
    // A trigger at contact keeps what came before it.
    triggered: true,
  };
  return readRunFile(record, readWith(input), needs, onProgress);
}

function strikeOf(passage: RunPassage | undefined, read: ReadFile | undefined, method: ImpactMethod, run: Run): Strike {
  const number = passage?.passage ?? 1;
  const force = read && neededChannel(read, STRIKER_FORCE, 'force', method);
  const keyed = (of: string, kind: 'time' | 'speed' | 'length', unit: string, shared = false) =>
    keyedForPassage(of, { kind, unit }, run, number, { shared });
  return {
    number,
    passage,
    file: read?.file.name,
    features:
      read &&
      force &&
      strikeFeatures(
        {
          time: read.time,
          steps: read.steps,
          force: force.values,
          fullScale: force.fullScale,
          displacement: channelIn(read, DISPLACEMENT, 'length')?.values,
        },
        method.parameters,
        statedContact(read, run, passage?.passage),
      ),
    correction: force?.correction,
    gateTime: keyed('gateTime', 'time', 's'),
    reboundGateTime: keyed('reboundGateTime', 'time', 's'),
    impactSpeed: keyed('impactSpeed', 'speed', 'm/s'),
    // A height that is set once holds for every strike.
    dropHeight: keyed('dropHeight', 'length', 'm', true),
  };
}

/** Where a person says that contact begins and ends. Throws a `Refusal` where the record does not hold it. */
function statedContact({ time, file }: ReadFile, run: Run, passage: number | undefined): StatedContact {
  const [begins, ends] = (['contact begins', 'contact ends'] as const).map((name) => statedInstant(run, name, passage));
  const from = begins && sampleAt(begins, { time, file: file.name });
  const to = ends && sampleAt(ends, { time, file: file.name });
  if (begins && ends && begins.moved.at >= ends.moved.at)
    throw new Refusal({
      code: 'body.range',
      pointer: `/instants/${ends.index}/at`,
      file: file.name,
      detail: `${file.name}: contact was moved to begin at ${begins.moved.at} s and to end at ${ends.moved.at} s.`,
      found: `${ends.moved.at}`,
      expected: `later than ${begins.moved.at} s`,
      action: 'Give an end that comes after the beginning.',
    });
  return { ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) };
}

/** The channels as judged, and what is worked out from the force: drawn beside them. */
function tracesOf(read: ReadFile, strike: Strike, method: ImpactMethod): Trace[] {
  const { features } = strike;
  const common = strike.passage ? { passage: strike.number } : {};
  const shown = stretchShown(read.time, features);
  const drawn = (values: Float64Array, time = read.time) => ({ ...common, time, values, ...(shown ? { shown } : {}) });
  const channels = drawnChannels(read).map(({ channel, unit, values, time }) => ({
    channel: channel.channel,
    unit,
    ...(channel.reference ? { reference: channel.reference } : {}),
    ...(channel.channel === STRIKER_FORCE && features ? drawn(features.raw) : drawn(values, time)),
  }));
  if (!features) return channels;
  const filtered = { channel: 'filteredForce', unit: 'N', ...drawn(features.filtered) };
  const contact = wholeContact(strike);
  const { value } = impactSpeed(strike, method);
  if (isNotEvaluated(contact) || isNotEvaluated(value) || value.kind === 'between') return [...channels, filtered];
  const motion = motionOf(features, contact, value.value, method);
  const time = read.time.slice(contact.from, contact.to + 1);
  return [
    ...channels,
    filtered,
    { channel: 'strikerVelocity', unit: 'm/s', ...common, time, values: motion.velocity },
    { channel: 'deflection', unit: 'mm', ...common, time, values: motion.deflection.map((metres) => 1000 * metres) },
    { channel: 'energyIntoPart', unit: 'J', ...common, time, values: motion.energy },
  ];
}

/**
 * A strike takes a fiftieth of the half second for which a second one is looked for: shown whole, it would be one line.
 * Shown is as long before and after contact as contact lasted; all of a record in which nothing or more was struck.
 */
function stretchShown(record: Float64Array, features: Strike['features']): Trace['shown'] {
  const contact = features?.contact;
  if (!contact || features.second) return undefined;
  const [begins, ends] = [record[contact.from] as number, record[contact.to] as number];
  const lasted = ends - begins;
  return { from: begins - lasted, to: ends + lasted };
}

function eventsOf({ features, passage, number }: Strike): TraceEvent[] {
  const contact = features?.contact;
  if (!features || !contact) return [];
  const { time } = features.record;
  const at = (name: string, index: number): TraceEvent => ({
    name,
    time: time[index] as number,
    value: features.filtered[index] as number,
    channel: STRIKER_FORCE,
    ...(passage ? { passage: number } : {}),
  });
  return [
    at('contact begins', contact.from),
    ...(contact.onset ? [at('onset of damage', contact.onset.index)] : []),
    at('peak', contact.peak.index),
    at('contact ends', contact.to),
    ...(features.second ? [at('second strike', features.second.peak.index)] : []),
  ].sort((a, b) => a.time - b.time);
}

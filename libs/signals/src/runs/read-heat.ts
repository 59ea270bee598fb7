import {
  type Characteristic,
  type Check,
  type HeatMethod,
  type HeatStage,
  Refusal,
  type Run,
  type RunPassage,
  type Trace,
  type TraceEvent,
} from '@breakbook/lab';
import { sameDimension, valueIn } from '@breakbook/units';
import { calibrationInDate } from '../checks/calibration.js';
import { channelChecks } from '../checks/channels/channel-checks.js';
import { openCircuit } from '../checks/channels/open-circuit.js';
import type { Finding } from '../checks/finding.js';
import { heatRecordChecks, heatRunChecks, stageChecks } from '../checks/heat/heat-checks.js';
import { recordedBeside } from '../checks/heat/recorded.js';
import { proposedValidity } from '../checks/proposed-validity.js';
import { indexOfLargest } from '../features/failure.js';
import { BRAKING_POWER, HEAT_CHANNELS, type HeatFeatures, heatFeatures, withoutOpen } from '../features/heat.js';
import { heatCharacteristic, stageCharacteristic } from '../features/heat-characteristics.js';
import { type Survival, survivalOf } from '../features/heat-failure.js';
import type { HeatSource } from '../features/heat-source.js';
import { brakedSpan, mainStretch, type Stretch } from '../features/heat-stretch.js';
import { firstAt } from '../features/vented-zero.js';
import { keyedCharacteristic } from './keyed.js';
import { keyedAgainstTrace } from './keyed-against-trace.js';
import { recordsOf } from './passages.js';
import { described, inFilesOrder, signalFlag, sources, uncertaintiesOf } from './reading.js';
import {
  channelIn,
  drawnChannels,
  neededChannel,
  type ReadFile,
  type ReadWith,
  readRunFile,
  writtenRecords,
} from './run-file.js';
import type { ReadRun, RunInput } from './run-input.js';
import { sampleAt, statedInstant } from './stated-instants.js';

/** A heat run: its stages are passages, in one file or in several. */
export function readHeatRun(
  method: HeatMethod,
  { files, run, glassTransition, onProgress }: RunInput,
  using: ReadWith,
): ReadRun {
  const { records, unrecorded } = recordsOf(files, run, method);
  const needs = {
    gap: { seconds: valueIn(method.parameters.longestGap, 's') },
    rows: 0,
    seconds: valueIn(method.parameters.temperatureWindow, 's'),
    because: 'the window over which temperatures are smoothed',
    triggered: false,
  };
  const progress = inFilesOrder(files, onProgress);
  const reads = records.map((record) => readRunFile(record, using, needs, progress(record.file)));
  const featured = reads.map((read) => ({ read, features: featuresOf(read, method) }));
  const stretches = featured.flatMap((one) => stretchesOf(one, method));
  const survival = survivalOf(stretches, method.parameters, (stretch) => statedFailureIn(stretch, run));
  const source: HeatSource = {
    method,
    stretches,
    main: mainStretch(stretches),
    survival,
    unrecorded: unrecorded.map(({ passage }) => passage),
    corrections: new Map(reads.flatMap(({ channels }) => channels.map((one) => [one.channel.channel, one.correction]))),
    calibrations: uncertaintiesOf(reads),
    glassTransition: glassTransition ?? method.parameters.glassTransition,
  };
  const characteristics = method.characteristics.map(
    (wanted): Characteristic => heatCharacteristic(wanted, source) ?? keyedCharacteristic(wanted, run),
  );

  const findings: { finding: Finding; file: string; passage?: number }[] = [
    ...featured.flatMap(({ read, features }) =>
      [
        ...read.channels.map(({ sensor }) => calibrationInDate(sensor)),
        ...read.channels.flatMap((channel) => openCircuit(channel, read.time)),
        ...heatRecordChecks(features, method),
      ].map((finding) => ({ finding, file: read.file.name, ...passageOf(read) })),
    ),
    ...stretches.flatMap((stretch, index) =>
      [...stageChecks(stretch, method, { survival, first: index === 0 }), ...lookedAt(stretch, featured)].map(
        (finding) => ({
          finding,
          file: stretch.file,
          ...(stretch.passage === undefined ? {} : { passage: stretch.passage }),
        }),
      ),
    ),
    ...[
      ...heatRunChecks(stretches, survival, source.unrecorded, method, run.examination?.endReason),
      ...recordedBeside(method, run),
      ...keyedAgainstTrace(method, run, characteristics),
    ].map((finding) => ({ finding, file: survival.stretch.file })),
  ];
  const checks = findings.map(
    ({ finding, passage }): Check => ({ ...finding.check, ...(passage === undefined ? {} : { passage }) }),
  );
  const flags = [
    ...reads.flatMap((read) => read.flags),
    ...findings.flatMap(({ finding, file }) => signalFlag(finding, file)),
  ];
  return {
    reading: {
      ...described(method, run),
      ...sources(reads),
      flags,
      checks,
      characteristics,
      ...(stretches.length > 1
        ? {
            passages: stretches.map((stretch) => ({
              passage: stretch.passage ?? 1,
              title: stretch.title,
              file: stretch.file,
              characteristics: method.characteristics.flatMap((wanted) => {
                const one = stageCharacteristic(wanted, { ...source, stretches: [stretch], unrecorded: [] });
                return one ? [one] : [];
              }),
            })),
          }
        : {}),
      events: eventsOf(stretches, survival),
      proposedValidity: proposedValidity(checks, flags.length),
    },
    traces: featured.flatMap(({ read, features }) => tracesOf(read, features)),
  };
}

function featuresOf(read: ReadFile, method: HeatMethod): HeatFeatures {
  const speed = neededChannel(read, HEAT_CHANNELS.speed, 'speed', method);
  const force = neededChannel(read, HEAT_CHANNELS.force, 'force', method);
  const track = HEAT_CHANNELS.track.flatMap((name) => channelIn(read, name, 'temperature') ?? []);
  if (track.length === 0) neededChannel(read, HEAT_CHANNELS.track[0], 'temperature', method);
  const room = channelIn(read, HEAT_CHANNELS.room, 'temperature');
  const infrared = channelIn(read, HEAT_CHANNELS.infrared, 'temperature');
  return heatFeatures(
    {
      time: read.time,
      steps: read.steps,
      speed: speed.values,
      force: force.values,
      forceFullScale: force.fullScale,
      track: track.map(({ channel, values, open, fullScale }) => ({
        channel: channel.channel,
        values,
        open,
        fullScale,
      })),
      tyre: channelIn(read, HEAT_CHANNELS.tyre, 'pressure')?.values,
      air: channelIn(read, HEAT_CHANNELS.air, 'speed')?.values,
      room: room && withoutOpen(room.values, room.open),
      infrared: infrared && withoutOpen(infrared.values, infrared.open),
    },
    method.parameters,
  );
}

/** The channels of a stage that follow its braking, looked at as they stand in the file. */
function lookedAt(stretch: Stretch, featured: readonly { read: ReadFile; features: HeatFeatures }[]): Finding[] {
  const read = featured.find(({ features }) => features === stretch.features)?.read;
  const span = brakedSpan(stretch);
  if (!read || !span) return [];
  const follow = [HEAT_CHANNELS.force, ...HEAT_CHANNELS.track];
  return channelChecks(writtenRecords(read, follow), read.time, span);
}

/** The stages that a file holds. Where it holds several, each begins when its passage does, by the file's own start. */
function stretchesOf(
  { read, features }: { read: ReadFile; features: HeatFeatures },
  { parameters: { stages } }: HeatMethod,
): Stretch[] {
  const { time, passages, file } = read;
  const last = time.length - 1;
  const [first] = stages;
  if (passages.length === 0)
    return [
      {
        features,
        file: file.name,
        passage: undefined,
        title: stages.length === 1 && first ? first.name : 'the whole run',
        programme: stages.length === 1 ? first : undefined,
        from: 0,
        last,
      },
    ];
  const starts = passages.map((one, index) => (index === 0 ? 0 : startOf(one, read)));
  return passages.map((one, index) => ({
    features,
    file: file.name,
    passage: one.passage,
    title: one.title,
    programme: programmeOf(one, stages),
    from: starts[index] as number,
    last: index + 1 < starts.length ? (starts[index + 1] as number) : last,
  }));
}

function startOf({ passage, startedAt }: RunPassage, { time, started, file }: ReadFile): number {
  const begins = (time[0] as number) + (Date.parse(startedAt) - (started ?? Number.NaN)) / 1000;
  const index = firstAt(time, begins);
  if (index > 0 && index < time.length - 1) return index;
  throw new Refusal({
    code: 'meta.date',
    file: file.name,
    detail: `${file.name}: passage ${passage} of the run began at ${startedAt}, and this record does not hold that moment.`,
    found: startedAt,
    expected: 'a start between the first row and the last',
    action: 'Correct when the passage began, or have it name its own file.',
  });
}

function programmeOf({ passage, target }: RunPassage, stages: readonly HeatStage[]): HeatStage | undefined {
  const stage = stages[passage - 1];
  return stage && target && sameDimension(target.unit, 'W') ? { ...stage, power: target } : stage;
}

/** A file that holds one passage of several is that passage's. */
function passageOf({ passages }: ReadFile): { passage?: number } {
  const [only] = passages;
  return only && passages.length === 1 ? { passage: only.passage } : {};
}
/**
 * The sample at which a person says that the run failed, in the stage it ended in. Throws a `Refusal` where it is said of
 * an earlier stage: what was braked on after that is no part of one run up to a failure.
 */
function statedFailureIn({ features, file, from, last, passage, title }: Stretch, run: Run): number | undefined {
  const stated = statedInstant(run, 'failure');
  if (!stated) return undefined;
  const { time } = features.record;
  if (stated.moved.passage !== undefined && passage !== undefined && stated.moved.passage !== passage)
    throw new Refusal({
      code: 'body.range',
      pointer: `/instants/${stated.index}/passage`,
      detail: `Run ${run.run}: the failure was moved into passage ${stated.moved.passage}, and the run went on to ${title}.`,
      found: `${stated.moved.passage}`,
      expected: `${passage}`,
      action: 'Move the failure within the stage the run ended in; say in the examination what was seen before.',
    });
  const sample = from + sampleAt(stated, { time: time.subarray(from, last + 1), file, within: title });
  // What was reached is what the last sample up to that moment says.
  return (time[sample] as number) > stated.moved.at ? sample - 1 : sample;
}

function tracesOf(read: ReadFile, features: HeatFeatures): Trace[] {
  const common = { ...passageOf(read), time: read.time };
  return [
    ...drawnChannels(read).map(({ channel, unit, values, time }) => ({
      channel: channel.channel,
      unit,
      ...(channel.reference ? { reference: channel.reference } : {}),
      ...common,
      time,
      values,
    })),
    { channel: BRAKING_POWER, unit: 'W', ...common, values: features.power },
  ];
}

function eventsOf(stretches: readonly Stretch[], { candidates, failure, stretch: ended }: Survival): TraceEvent[] {
  return stretches.flatMap((stretch) => {
    const braked = brakedSpan(stretch);
    if (!braked) return [];
    const { record, hottest, track, steadyPower } = stretch.features;
    const peak = stretch.from + indexOfLargest(hottest.subarray(stretch.from, stretch.last + 1));
    const sensor = track.find(({ filtered }) => filtered[peak] === hottest[peak]);
    const at = (name: string, index: number, channel: string, value: number): TraceEvent => ({
      name,
      time: record.time[index] as number,
      value,
      channel,
      ...(stretch.passage === undefined ? {} : { passage: stretch.passage }),
    });
    return [
      at('brake on', braked.from, BRAKING_POWER, steadyPower[braked.from] as number),
      at('brake off', braked.last, BRAKING_POWER, steadyPower[braked.last] as number),
      ...(sensor ? [at('hottest', peak, sensor.channel, hottest[peak] as number)] : []),
      ...(stretch === ended
        ? [...new Set([...candidates, ...(failure ? [failure] : [])])].map((one) =>
            at(one === failure ? 'failure' : `sudden end: ${one.by}`, one.index, one.channel, one.value),
          )
        : []),
    ].sort((a, b) => a.time - b.time);
  });
}

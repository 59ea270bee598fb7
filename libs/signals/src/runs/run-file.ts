import {
  type Calibration,
  type Layout,
  type Method,
  type MethodChannel,
  Refusal,
  type Rig,
  type Run,
} from '@breakbook/lab';
import { convert, type QuantityKind, valueIn } from '@breakbook/units';
import type { ChannelRecord } from '../checks/channels/channel-record.js';
import { RIM_PRESSURE } from '../features/burst-characteristics.js';
import { HEAT_CHANNELS } from '../features/heat.js';
import { STRIKER_FORCE } from '../features/impact-source.js';
import { expectationOf } from '../files/header.js';
import { type RunTable, readLayout1 } from '../files/layout-1.js';
import { metadataNeeded } from '../files/metadata.js';
import { columnDigest, numbersDigest } from '../files/numbers-digest.js';
import { ProblemList } from '../files/problem-list.js';
import { flagTimes } from '../files/time-flags.js';
import { type GapRule, type TimeSteps, timeSteps } from '../files/time-steps.js';
import { checkAgreement, checkStamps } from './agreement.js';
import { type CorrectedChannel, correctedChannel } from './corrected-channel.js';
import { dayOf } from './in-force.js';
import type { RunRecord } from './passages.js';
import { recordRows, withMissingEnds } from './record-readings.js';

/** The bytes of one file as sent, with their digest. */
export interface SentFile {
  name: string;
  bytes: Uint8Array;
  sha256: string;
}

/** A run's file, read, found to be this run's, and corrected. */
export interface ReadFile {
  file: SentFile;
  passages: RunRecord['passages'];
  rows: number;
  /** Digest of the numbers as they stand in the file. */
  numbers: string;
  /** When the first sample was taken, milliseconds since 1970; undefined where the file does not say it. */
  started: number | undefined;
  /** Seconds. */
  time: Float64Array;
  steps: TimeSteps;
  /** Channels with a value for each time of the record. */
  channels: CorrectedChannel[];
  /** Channels that lack readings in some row, as read: each on a clock of its own. */
  own: DrawnChannel[];
  flags: RunTable['flags'];
}

/** A channel with the times of its readings. */
export interface DrawnChannel extends CorrectedChannel {
  time: Float64Array;
}

/** What a method needs of a record before anything can be read from it. */
export interface RecordNeeds {
  gap: GapRule;
  rows: number;
  /** The record must last longer than this, and why. */
  seconds: number;
  because: string;
  /** Is it normal that the record begins before its zero of time? */
  triggered: boolean;
}

/** Fewer rows than this show nothing. */
const FEWEST_ROWS = 10;

/** Channels whose readings a run is judged by: where one has none, the record has a gap. */
const JUDGED: Record<Method['test'], readonly string[]> = {
  burst: [RIM_PRESSURE],
  heat: [HEAT_CHANNELS.speed, HEAT_CHANNELS.force, ...HEAT_CHANNELS.track, HEAT_CHANNELS.tyre],
  impact: [STRIKER_FORCE],
  table: [],
};

/** Everything a run's files are read with. */
export interface ReadWith {
  method: Method;
  layout: Layout;
  rig: Rig;
  calibrations: readonly Calibration[];
  run: Run;
}

/** Reads one file of a run by layout 1. Throws a `Refusal` with everything that is wrong with it. */
export function readRunFile(
  { file, passages }: RunRecord,
  { method, layout, rig, calibrations, run }: ReadWith,
  needs: RecordNeeds,
  onProgress?: (done: number, total: number) => void,
): ReadFile {
  const table = readLayout1(file.name, file.bytes, expectationOf(layout, method.channels), {
    requiredMetadata: metadataNeeded(layout),
    keep: ({ carries }) => !('nothing' in carries),
    ...(onProgress ? { onProgress } : {}),
  });
  const problems = new ProblemList(file.name);
  const flags = new ProblemList(file.name);
  const expected = { run, rig, passages, ...(layout.clockZone ? { clockZone: layout.clockZone } : {}) };
  const told = checkAgreement(table.metadata, expected, problems, flags);
  const stamped = checkStamps(table, expected, flags);
  // The run record says when a file began that does not say it itself.
  const keyed = layout.metadata === 'none' ? Date.parse(passages[0]?.startedAt ?? run.startedAt) : undefined;
  const started = told ?? stamped ?? keyed;

  const timeIndex = table.columns.findIndex(({ carries }) => 'time' in carries);
  const timeColumn = table.columns[timeIndex];
  const written = table.values[timeIndex];
  if (!timeColumn || !written) throw new Error('readRunFile: layout 1 gave no time column');
  const allTimes = written.map((value) => convert(value, timeColumn.unit, 's'));
  const record = recordRows(allTimes, channelRows(table, layout), JUDGED[method.test]);
  const { time } = record;
  requireLength(time, table, needs, problems);
  problems.throwIfAny();

  const rowSteps = timeSteps(allTimes, needs.gap);
  const steps =
    time === allTimes
      ? rowSteps
      : withMissingEnds(
          timeSteps(time, needs.gap),
          record,
          'seconds' in needs.gap ? needs.gap.seconds : needs.gap.periods * rowSteps.period,
        );
  const minimumRate = Math.max(
    0,
    ...method.channels.map((one) => (one.minimumRate ? valueIn(one.minimumRate, 'Hz') : 0)),
  );
  flagTimes(
    {
      time,
      // Rows without a reading are none that the logger's clock left out.
      steps: { ...rowSteps, gaps: layout.time.gapsExpected ? [] : steps.gaps },
      lineOf: (sample) => table.firstLine + (record.rows[sample] ?? 0),
      column: timeColumn.column,
      name: timeColumn.name,
    },
    table.metadata,
    { minimumRate, triggered: needs.triggered || layout.time.beginsBeforeZero === true },
    flags,
  );

  const day = dayOf(passages[0]?.startedAt ?? run.startedAt);
  const channels: CorrectedChannel[] = [];
  const own: DrawnChannel[] = [];
  for (const { carries, unit } of table.columns) {
    if (!('channel' in carries)) continue;
    const { channel } = carries;
    const corrected = (values: Float64Array) => correctedChannel(channel, { values, unit }, rig, calibrations, day);
    const values = record.values.get(channel.channel);
    if (values) channels.push(corrected(values));
    const readings = record.own.get(channel.channel);
    if (readings) own.push({ ...corrected(readings.values), time: readings.time });
  }
  const numbers = numbersDigest(table.values.map((values, index) => table.digests[index] ?? columnDigest(values)));
  return {
    file,
    passages,
    rows: table.rows,
    numbers,
    started: started === undefined ? undefined : started + 1000 * record.missing.before,
    time,
    steps,
    channels,
    own,
    flags: [...table.flags, ...flags.first],
  };
}

function requireLength(time: Float64Array, table: RunTable, needs: RecordNeeds, problems: ProblemList): void {
  const lasted = (time.at(-1) ?? 0) - (time[0] ?? 0);
  const fewest = Math.max(FEWEST_ROWS, needs.rows);
  if (time.length < fewest || lasted <= needs.seconds)
    problems.add('run.too-short', { line: table.firstLine + table.rows - 1 }, () => ({
      sentence: `the record has ${time.length} rows${time.length < table.rows ? ' with readings' : ''} over ${lasted} s, too few to read anything from.`,
      expected: `at least ${fewest} rows, and longer than ${needs.because}`,
      action: 'Export the whole record and send the file again.',
    }));
}

/** The channels as written: the layout's scale is part of the indicated value. */
function channelRows({ columns, values }: RunTable, layout: Layout) {
  return columns.flatMap(({ carries, name }, index) => {
    const numbers = values[index];
    if (!('channel' in carries) || !numbers) return [];
    const declared = layout.columns.find(({ column }) => column.normalize('NFC') === name);
    const { scale, sampledEvery } = declared ?? {};
    return [
      {
        channel: carries.channel.channel,
        required: carries.channel.required,
        values: scale === undefined ? numbers : numbers.map((number) => scale * number),
        ...(sampledEvery ? { every: valueIn(sampledEvery, 's') } : {}),
      },
    ];
  });
}

/** Every channel of a file as it is drawn: with the times at which it was read. */
export function drawnChannels({ channels, own, time }: ReadFile): DrawnChannel[] {
  const apart = new Set(own.map(({ channel }) => channel.channel));
  return [...channels.filter(({ channel }) => !apart.has(channel.channel)).map((one) => ({ ...one, time })), ...own];
}

/**
 * Channels, by their names, as they stand in the file. A channel that lacks readings is left out: the straight line drawn
 * between two of its readings has no noise of its own.
 */
export function writtenRecords({ channels, own }: ReadFile, names: readonly string[]): ChannelRecord[] {
  const apart = new Set(own.map(({ channel }) => channel.channel));
  return channels
    .filter(({ channel, open }) => names.includes(channel.channel) && !apart.has(channel.channel) && !open)
    .map(({ record }) => record);
}

/** The channel of this name, where the file has it. */
export function channelIn({ channels }: ReadFile, name: string, kind: QuantityKind): CorrectedChannel | undefined {
  return channels.find(({ channel }) => channel.channel === name && channel.kind === kind);
}

/** The channel of this name, without which a run of this method says nothing. */
export function neededChannel(
  read: ReadFile,
  name: string,
  kind: MethodChannel['kind'],
  method: Method,
): CorrectedChannel {
  const found = channelIn(read, name, kind);
  if (found) return found;
  throw new Refusal({
    code: 'header.missing-channel',
    file: read.file.name,
    channel: name,
    detail: `${read.file.name}: a run of ${method.method} rev. ${method.revision} is read from channel ${name}, and there is none in this file.`,
    expected: `a column for channel ${name}`,
    action: `Have the method list the channel as a required ${kind}, and the layout name its column.`,
  });
}

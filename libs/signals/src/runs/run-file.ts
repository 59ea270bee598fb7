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
import { type RunTable, readLayout1 } from '../files/layout-1.js';
import { numbersDigest } from '../files/numbers-digest.js';
import { ProblemList } from '../files/problem-list.js';
import { flagTimes } from '../files/time-flags.js';
import { type GapRule, type TimeSteps, timeSteps } from '../files/time-steps.js';
import { checkAgreement } from './agreement.js';
import { type CorrectedChannel, correctedChannel } from './corrected-channel.js';
import { dayOf } from './in-force.js';
import { type RunRecord } from './passages.js';

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
  /** When the first row was taken, milliseconds since 1970; undefined where the file does not say it. */
  started: number | undefined;
  /** Seconds. */
  time: Float64Array;
  steps: TimeSteps;
  channels: CorrectedChannel[];
  flags: RunTable['flags'];
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
  const table = readLayout1(
    file.name,
    file.bytes,
    { timeColumn: layout.time.column, columns: layout.columns, channels: method.channels },
    {
      requiredMetadata: ['specimen', 'rig', 'started', ...layout.requiredMetadata],
      ...(onProgress ? { onProgress } : {}),
    },
  );
  const problems = new ProblemList(file.name);
  const flags = new ProblemList(file.name);
  const started = checkAgreement(table.metadata, { run, rig, passages }, problems, flags);

  const timeIndex = table.columns.findIndex(({ carries }) => 'time' in carries);
  const timeColumn = table.columns[timeIndex];
  const written = table.values[timeIndex];
  if (!timeColumn || !written) throw new Error('readRunFile: layout 1 gave no time column');
  const time = written.map((value) => convert(value, timeColumn.unit, 's'));
  requireLength(time, table, needs, problems);
  problems.throwIfAny();

  const steps = timeSteps(time, needs.gap);
  const minimumRate = Math.max(
    0,
    ...method.channels.map((one) => (one.minimumRate ? valueIn(one.minimumRate, 'Hz') : 0)),
  );
  flagTimes(
    { time, steps, firstLine: table.firstLine, column: timeColumn.column, name: timeColumn.name },
    table.metadata,
    { minimumRate, triggered: needs.triggered },
    flags,
  );

  const day = dayOf(passages[0]?.startedAt ?? run.startedAt);
  const channels = table.columns.flatMap(({ carries, unit }, index) => {
    const values = table.values[index];
    return 'channel' in carries && values
      ? [correctedChannel(carries.channel, { values, unit }, rig, calibrations, day)]
      : [];
  });
  const numbers = numbersDigest(table.values);
  return {
    file,
    passages,
    rows: table.rows,
    numbers,
    started,
    time,
    steps,
    channels,
    flags: [...table.flags, ...flags.first],
  };
}

function requireLength(time: Float64Array, table: RunTable, needs: RecordNeeds, problems: ProblemList): void {
  const lasted = (time.at(-1) ?? 0) - (time[0] ?? 0);
  const fewest = Math.max(FEWEST_ROWS, needs.rows);
  if (table.rows < fewest || lasted <= needs.seconds)
    problems.add('run.too-short', { line: table.firstLine + table.rows - 1 }, () => ({
      sentence: `the record has ${table.rows} rows over ${lasted} s, too few to read anything from.`,
      expected: `at least ${fewest} rows, and longer than ${needs.because}`,
      action: 'Export the whole record and send the file again.',
    }));
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

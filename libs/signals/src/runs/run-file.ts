import { type BurstMethod, type Calibration, type Layout, Refusal, type Rig, type Run } from '@breakbook/lab';
import { convert, valueIn } from '@breakbook/units';
import { type RunTable, readLayout1 } from '../files/layout-1.js';
import { ProblemList } from '../files/problem-list.js';
import { flagTimes } from '../files/time-flags.js';
import { type TimeSteps, timeSteps } from '../files/time-steps.js';
import { checkAgreement } from './agreement.js';
import { type CorrectedChannel, correctedChannel } from './corrected-channel.js';
import { dayOf } from './in-force.js';

/** The bytes of one file as sent, with their digest. */
export interface SentFile {
  name: string;
  bytes: Uint8Array;
  sha256: string;
}

/** A run's file, read, found to be this run's, and corrected. */
export interface ReadFile {
  rows: number;
  /** Seconds. */
  time: Float64Array;
  steps: TimeSteps;
  channels: CorrectedChannel[];
  flags: RunTable['flags'];
}

/** Fewer rows than this show nothing. */
const FEWEST_ROWS = 10;

/** Reads the one file of a run by layout 1. Throws a `Refusal` with everything that is wrong with it. */
export function readRunFile(
  file: SentFile,
  {
    method,
    layout,
    rig,
    calibrations,
    run,
  }: {
    method: BurstMethod;
    layout: Layout;
    rig: Rig;
    calibrations: readonly Calibration[];
    run: Run;
  },
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
  checkAgreement(table.metadata, run, rig, problems, flags);

  const timeIndex = table.columns.findIndex(({ carries }) => 'time' in carries);
  const timeColumn = table.columns[timeIndex];
  const written = table.values[timeIndex];
  if (!timeColumn || !written) throw new Error('readRunFile: layout 1 gave no time column');
  const time = written.map((value) => convert(value, timeColumn.unit, 's'));
  requireLength(time, table, method, problems);
  problems.throwIfAny();

  const steps = timeSteps(time, method.parameters.gapPeriods);
  const minimumRate = Math.max(
    0,
    ...method.channels.map((one) => (one.minimumRate ? valueIn(one.minimumRate, 'Hz') : 0)),
  );
  flagTimes(
    { time, steps, firstLine: table.firstLine, column: timeColumn.column, name: timeColumn.name },
    table.metadata,
    minimumRate,
    flags,
  );

  const day = dayOf(run.startedAt);
  const channels = table.columns.flatMap(({ carries, unit }, index) => {
    const values = table.values[index];
    return 'channel' in carries && values
      ? [correctedChannel(carries.channel, { values, unit }, rig, calibrations, day)]
      : [];
  });
  return { rows: table.rows, time, steps, channels, flags: [...table.flags, ...flags.first] };
}

function requireLength(time: Float64Array, table: RunTable, method: BurstMethod, problems: ProblemList): void {
  const needed = valueIn(method.parameters.zeroTime, 's');
  const lasted = (time.at(-1) ?? 0) - (time[0] ?? 0);
  const fewest = Math.max(FEWEST_ROWS, method.parameters.despikeSamples);
  if (table.rows < fewest || lasted <= needed)
    problems.add('run.too-short', { line: table.firstLine + table.rows - 1 }, () => ({
      sentence: `the record has ${table.rows} rows over ${lasted} s, too few to read anything from.`,
      expected: `at least ${fewest} rows, and longer than the ${needed} s from which the zero is taken`,
      action: 'Export the whole record and send the file again.',
    }));
}

/** The one file that layout 1 reads a run from. */
export function onlyFile(files: readonly SentFile[], run: Run): SentFile {
  const [only] = files;
  if (!only)
    throw new Refusal({
      code: 'file.missing',
      detail: `Run ${run.run} came without a file, and its method reads one.`,
      expected: 'one run file',
      action: 'Send the file of the run with it.',
    });
  if (files.length > 1)
    throw new Refusal({
      code: 'request.too-many-parts',
      detail: `Run ${run.run} came with ${files.length} files; layout 1 reads a run from one.`,
      found: files
        .map(({ name }) => name)
        .join(', ')
        .slice(0, 100),
      expected: 'one run file',
      action: 'Send the file that holds every channel of the run.',
    });
  return only;
}

import { convert, printSignificant, unitByCode } from '@breakbook/units';
import type { Metadata } from './metadata.js';
import { readNumber } from './number.js';
import type { ProblemList } from './problem-list.js';
import type { TimeSteps } from './time-steps.js';

/** The time of one file, in seconds, and where it stands in the file. */
export interface TimeColumn {
  time: Float64Array;
  steps: TimeSteps;
  /** Line of the file for each sample. */
  lineOf: (sample: number) => number;
  column: number;
  name: string;
}

/** Instants written as seconds since 1970 begin here (in 1973); no run lasts this long. */
const EPOCH_SECONDS = 1e8;
const LONGEST_RUN = 7 * 86_400;
const SHORTEST_PERIOD = 1e-6;
const RATE_AGREES = 0.01;
const JITTER_FLAGGED = 0.001;

/** Flags what is doubtful about the times of a file: gaps, another rate, jitter, an implausible or negative time. */
export function flagTimes(
  at: TimeColumn,
  metadata: Metadata,
  {
    minimumRate,
    triggered,
  }: { minimumRate: number /** Does the record normally begin before its zero of time? */; triggered: boolean },
  flags: ProblemList,
): void {
  const { time, steps, lineOf, column, name } = at;
  const place = (index: number) => ({ line: lineOf(index), column, channel: name });
  const seconds = (value: number) => `${printSignificant(value, 4)} s`;

  const longest = steps.gaps.reduce<TimeSteps['gaps'][number] | undefined>(
    (most, gap) => (!most || gap.to - gap.from > most.to - most.from ? gap : most),
    undefined,
  );
  if (longest)
    flags.add('time.gap', place(longest.after), () => ({
      sentence: `${steps.gaps.length === 1 ? 'one gap' : `${steps.gaps.length} gaps`} in the record; the longest is ${seconds(longest.to - longest.from)}, where samples come every ${seconds(steps.period)}.`,
      found: `${longest.from} to ${longest.to}`,
      action: 'Look whether anything happened in the gap. Nothing is filled in.',
    }));

  const change = steps.rateChange;
  if (change)
    flags.add('time.rate-change', place(change.index), () => ({
      sentence: `from here samples come every ${seconds(change.period)}, elsewhere every ${seconds(steps.period)}.`,
      action: 'Find out whether the logger changed its rate or lost samples.',
    }));

  if (steps.jitter.count > JITTER_FLAGGED * (time.length - 1))
    flags.add('time.jitter', place(steps.jitter.index), () => ({
      sentence: `${steps.jitter.count} steps are off the usual ${seconds(steps.period)} by more than half; the worst by ${Math.round(100 * steps.jitter.worst)} %.`,
      action: 'Check the clock of the logger, and whether times are written with enough digits.',
    }));

  flagDeclaredRate(at, metadata, flags);

  const [start, end] = [time[0] as number, time.at(-1) as number];
  const odd = implausible(start, end, steps.period, minimumRate);
  if (odd)
    flags.add('time.range', place(0), () => ({
      sentence: `the times from ${start} to ${end} do not look like seconds of a run: ${odd}.`,
      found: `${start} to ${end}`,
      expected: 'seconds since the start of the record, or another unit in the header',
      action: 'Check the unit of the time column.',
    }));
  if (start < 0 && !triggered)
    flags.add('time.negative', place(0), () => ({
      sentence: `the record begins ${seconds(-start)} before its zero of time.`,
      action: 'Confirm that the record was started by a trigger.',
    }));
}

function implausible(start: number, end: number, period: number, minimumRate: number): string | undefined {
  if (start >= EPOCH_SECONDS) return 'they look like a date in seconds';
  if (end - start > LONGEST_RUN) return 'they last longer than a week';
  if (period < SHORTEST_PERIOD) return 'samples would be less than a microsecond apart';
  if (period === 1 && Number.isInteger(start) && minimumRate > 1) return 'they count by ones, as sample numbers do';
  return undefined;
}

/** `# sampleRate: 500 Hz`, where it is given, must be the rate of the rows. */
function flagDeclaredRate(at: TimeColumn, metadata: Metadata, flags: ProblemList): void {
  const declared = metadata.get('sampleRate');
  if (!declared) return;
  const rate = declaredRate(declared.value);
  const found = 1 / at.steps.period;
  if (rate === undefined || Math.abs(rate / found - 1) > RATE_AGREES)
    flags.add('time.rate-change', { line: declared.line }, () => ({
      sentence: `the metadata say ${declared.value}, the rows come at ${printSignificant(found, 4)} Hz.`,
      found: declared.value,
      expected: 'the rate of the rows with its unit, such as # sampleRate: 500 Hz',
      action: 'Find out which of the two the logger meant.',
    }));
}

function declaredRate(written: string): number | undefined {
  const [, text = '', unit = ''] = /^(\S+)\s+\[?([^\]\s]+)\]?$/.exec(written) ?? [];
  const number = readNumber(text);
  if (!('value' in number) || unitByCode(unit)?.dimension !== unitByCode('Hz')?.dimension) return undefined;
  return convert(number.value, unit, 'Hz');
}

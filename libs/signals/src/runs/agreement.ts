import type { Problem, Rig, Run, RunPassage } from '@breakbook/lab';
import { readInstant } from '../files/date-time.js';
import type { Metadata } from '../files/metadata.js';
import type { ProblemList } from '../files/problem-list.js';
import { dayOf } from './in-force.js';

const DAY = 86_400_000;
/** Furthest instant from 1970 that the language's calendar has, ms (ECMA-262, 21.4.1.1). */
const LAST_INSTANT = 8.64e15;

/** Two clocks that are looked after differ by less, ms. Common practice, no source. */
const CLOCKS_APART = 5 * 60_000;
const CLOCK_AHEAD =
  "Compare the clock of the rig, and its zone, with the lab's; set it, and say in the run's deviations by how much it was ahead.";

/** Does this instant lie after the run came in, by more than two clocks differ? A run of a folder came in nowhere. */
function isAfterReceipt(instant: number, { receivedAt }: Run): boolean {
  return receivedAt !== undefined && instant - Date.parse(receivedAt) > CLOCKS_APART;
}

/** A run that says itself that it began after it came in. It is kept: a destroyed part cannot be tested again. */
export function startedInFuture(run: Run): Problem[] {
  if (!isAfterReceipt(Date.parse(run.startedAt), run)) return [];
  return [
    {
      code: 'meta.date',
      pointer: '/startedAt',
      detail: `/startedAt: run ${run.run} is said to have begun at ${run.startedAt}, after it came in at ${run.receivedAt}.`,
      found: run.startedAt,
      action: CLOCK_AHEAD,
    },
  ];
}

/** What a file should be a record of. */
export interface Expected {
  run: Run;
  rig: Rig;
  /** The passages it holds, where the run names several. */
  passages: readonly RunPassage[];
  /** Zone of the rig's clock, where the layout says it. */
  clockZone?: string;
}

/**
 * Is this the file of this run, and of this passage of it? Specimen, rig and passage must be the run's; a doubtful date
 * is flagged. Answers when the record began; undefined where the file does not say it well.
 */
export function checkAgreement(
  metadata: Metadata,
  expectation: Expected,
  problems: ProblemList,
  flags: ProblemList,
): number | undefined {
  const { run, rig, passages, clockZone } = expectation;
  for (const [key, expected] of [
    ['specimen', run.specimen],
    ['rig', rig.rig],
  ] as const) {
    const entry = metadata.get(key);
    if (entry && entry.value !== expected)
      problems.add('meta.unknown', { line: entry.line }, () => ({
        sentence: `the file is of ${key} "${entry.value}", run ${run.run} of ${key} "${expected}".`,
        found: entry.value,
        expected,
        action: 'Send the file with the run it belongs to; if the run record is wrong, correct it first.',
      }));
  }

  checkPassage(metadata, run, passages, problems);

  const started = metadata.get('started');
  if (!started) return undefined;
  const read = readInstant(started.value, clockZone);
  if ('said' in read) {
    problems.add('meta.date', { line: started.line }, () => read.said);
    return undefined;
  }

  checkStart(read.instant, { found: started.value, line: started.line }, expectation, flags);
  return read.instant;
}

/** When a file began by its own stamps, held against the run; undefined where its times are no instants. */
export function checkStamps(
  { firstInstant, firstLine }: { firstInstant: number | undefined; firstLine: number },
  expectation: Expected,
  flags: ProblemList,
): number | undefined {
  if (firstInstant === undefined) return undefined;
  if (Math.abs(firstInstant) > LAST_INSTANT) {
    flags.add('meta.date', { line: firstLine }, () => ({
      sentence: 'the stamps of this file are no instants that a calendar has.',
      action: 'Check the unit of the epoch that the layout declares.',
    }));
    return undefined;
  }
  checkStart(firstInstant, { found: new Date(firstInstant).toISOString(), line: firstLine }, expectation, flags);
  return firstInstant;
}

/** A start that cannot be, or is not the run's, is doubtful. */
function checkStart(
  instant: number,
  { found, line }: { found: string; line: number },
  { run, rig, passages }: Expected,
  flags: ProblemList,
): void {
  const expectedStart = passages[0]?.startedAt ?? run.startedAt;
  const firstDay = rig.placements.map(({ from }) => from).sort()[0] ?? '';
  const day = dayOf(new Date(instant).toISOString());
  if (isAfterReceipt(instant, run))
    flags.add('meta.date', { line }, () => ({
      sentence: `the record begins after it came in (${run.receivedAt}): it cannot have been made yet.`,
      found,
      action: CLOCK_AHEAD,
    }));
  else if (day < firstDay)
    flags.add('meta.date', { line }, () => ({
      sentence: `the record begins on ${day}, before the first sensor was placed on rig ${rig.rig} (${firstDay}).`,
      found,
      action: 'Check the clock of the rig.',
    }));
  else if (Math.abs(instant - Date.parse(expectedStart)) > DAY)
    flags.add('meta.date', { line }, () => ({
      sentence: `the file and the run record disagree by more than a day on when the run began.`,
      found,
      expected: expectedStart,
      action: 'Check the clock of the rig, and whether this is the file of this run.',
    }));
}

/** `# passage: 2` may be given; it must then be the passage for which the run names this file. */
function checkPassage(metadata: Metadata, run: Run, passages: readonly RunPassage[], problems: ProblemList): void {
  const entry = metadata.get('passage');
  if (!entry) return;
  const [first] = passages;
  const expected = passages.length > 1 ? undefined : String(first?.passage ?? 1);
  if (entry.value === expected) return;
  const numbers = passages.map(({ passage }) => passage).join(', ');
  problems.add('meta.unknown', { line: entry.line }, () => ({
    sentence:
      expected === undefined
        ? `the file is of passage "${entry.value}" alone, and run ${run.run} takes it for passages ${numbers}.`
        : `the file is of passage "${entry.value}", and run ${run.run} ${first ? `names it for passage ${expected}` : 'names no passages'}.`,
    found: entry.value,
    ...(expected === undefined ? {} : { expected }),
    action: 'Have each passage of the run name its own file; if the run record is wrong, correct it first.',
  }));
}

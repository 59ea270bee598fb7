import { type Rig, type Run } from '@breakbook/lab';
import { readInstant } from '../files/date-time.js';
import { type Metadata } from '../files/metadata.js';
import { type ProblemList } from '../files/problem-list.js';
import { dayOf } from './in-force.js';

const DAY = 86_400_000;

/** Is this the file of this run? Specimen and rig must be the run's; a doubtful date is flagged. */
export function checkAgreement(
  metadata: Metadata,
  run: Run,
  rig: Rig,
  problems: ProblemList,
  flags: ProblemList,
): void {
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

  const started = metadata.get('started');
  if (!started) return;
  const read = readInstant(started.value);
  if ('said' in read) {
    problems.add('meta.date', { line: started.line }, () => read.said);
    return;
  }

  const firstDay = rig.placements.map(({ from }) => from).sort()[0] ?? '';
  const day = dayOf(new Date(read.instant).toISOString());
  if (day < firstDay)
    flags.add('meta.date', { line: started.line }, () => ({
      sentence: `the record begins on ${day}, before the first sensor was placed on rig ${rig.rig} (${firstDay}).`,
      found: started.value,
      action: 'Check the clock of the rig.',
    }));
  else if (Math.abs(read.instant - Date.parse(run.startedAt)) > DAY)
    flags.add('meta.date', { line: started.line }, () => ({
      sentence: `the file and the run record disagree by more than a day on when the run began.`,
      found: started.value,
      expected: run.startedAt,
      action: 'Check the clock of the rig, and whether this is the file of this run.',
    }));
}

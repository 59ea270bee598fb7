import type { Run, RunJudgement } from '@breakbook/lab';
import type { RunSheetContent } from './content.js';

/** The run that a sheet is about. */
export function runOf({ bundle }: RunSheetContent): Run {
  const [run] = bundle.runs;
  if (!run) throw new Error('A run sheet has the records of its run.');
  return run;
}

export function validityOf(content: RunSheetContent): RunJudgement['validity'] {
  return runOf(content).validity?.validity ?? 'not decided';
}

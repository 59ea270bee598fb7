import { withoutSoftware } from '@breakbook/lab';
import { traceOfRun } from '../content/report-trace.js';
import type { RunSheetContent } from '../documents/run-sheet/content.js';
import { runOf } from '../documents/run-sheet/run-of.js';
import { type FilesOfRuns, filesRead, type LaidBeside } from './laid-beside.js';
import { methodsOf } from './methods-of.js';
import { runAgain } from './run-again.js';

/** A run's reading, judgement and value in the claim, and the record that is drawn where its files are at hand. */
export function runSheetAgain(content: RunSheetContent, files: FilesOfRuns): LaidBeside {
  const { bundle, reading, judgement, entry, refused, trace, software } = content;
  const run = runOf(content);
  const again = runAgain(bundle, run, reading, files);
  const read = filesRead(files);
  const now = 'evaluated' in again ? again.evaluated : undefined;
  const asked = bundle.plan.lines.find(({ line }) => line === run.planLine)?.characteristic;
  const result = now?.judgement.results.find(({ characteristic }) => characteristic === asked);
  return {
    kept: {
      reading: reading && withoutSoftware(reading),
      judgement,
      ...(entry ? { claim: entry.result } : {}),
      ...(read ? { trace, refused } : {}),
    },
    now: {
      reading: now && withoutSoftware(now.reading),
      judgement: now?.judgement,
      ...(entry ? { claim: result } : {}),
      ...(read
        ? {
            trace: now && traceOfRun(run.planLine, run.run, now.traces),
            refused: 'refused' in again ? again.refused : [],
          }
        : {}),
    },
    since: { software, methods: reading ? methodsOf([reading]) : [] },
  };
}

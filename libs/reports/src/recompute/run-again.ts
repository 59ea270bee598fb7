import { type EvaluatedRun, evaluateRun, judgeRun } from '@breakbook/acceptance';
import { type LotBundle, type Problem, type Reading, Refusal, type Run, withFlags } from '@breakbook/lab';
import { type FilesOfRuns, filesRead } from './laid-beside.js';

/** A run evaluated again, or why its files are refused. */
export type RunAgain = { evaluated: EvaluatedRun } | { refused: Problem[] };

/** One run of a part of a lot, read again where all files are at hand, else judged again from what it was read as. */
export function runAgain(bundle: LotBundle, run: Run, reading: Reading | undefined, files: FilesOfRuns): RunAgain {
  if (!filesRead(files)) return reading ? { evaluated: judgedAgain(bundle, run, reading) } : { refused: [] };
  try {
    const evaluated = evaluateRun(bundle, run, files.get(run.run) ?? []);
    // That another run has the same numbers shows among all runs only.
    const ofOthers = reading?.flags.filter(({ code }) => code === 'run.near-duplicate') ?? [];
    return { evaluated: { ...evaluated, reading: withFlags(evaluated.reading, ofOthers) } };
  } catch (error) {
    if (error instanceof Refusal) return { refused: error.problems };
    throw error;
  }
}

function judgedAgain(bundle: LotBundle, run: Run, reading: Reading): EvaluatedRun {
  const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  if (!method) throw new Error(`The records of run ${run.run} hold no ${run.method} rev. ${run.methodRevision}.`);
  const judgement = judgeRun({ plan: bundle.plan, method, limits: bundle.limits, reading, run });
  return { run, reading, judgement, traces: [] };
}

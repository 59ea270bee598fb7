import { type LotBundle, type LotResult, Refusal, shown } from '@breakbook/lab';
import { checkBundle } from './check-bundle.js';
import type { UnreadRun } from './claim.js';
import { type EvaluatedRun, evaluateRun, type FileBytes } from './evaluate-run.js';
import { judgeLot } from './judge-lot.js';
import { flagNearDuplicates } from './near-duplicates.js';

/** A lot read, judged and evaluated under its plan, with everything a report shows. */
export interface LotEvaluation {
  result: LotResult;
  runs: EvaluatedRun[];
  /** Runs whose files were refused, with every problem; their bytes are to be kept unread. */
  refused: UnreadRun[];
}

/** How far an evaluation is. */
export interface EvaluationProgress {
  /** The run being read; empty when all are done. */
  run: string;
  /** Runs dealt with, of all runs. */
  done: number;
  of: number;
  /** Share of the file of `run` that is read, a fraction. */
  share: number;
}

/**
 * What does the whole lot say? Checks that the records fit each other, reads each run, judges it, and judges the lot.
 *
 * A bundle whose records do not fit is refused whole, with every problem (a `Refusal`). A run whose file is refused is
 * not judged and keeps its place, and the other runs go on. `filesOf` gives the bytes of a run's files; what it refuses
 * is refused for that run alone.
 */
export function evaluateLot(
  bundle: LotBundle,
  filesOf: (run: string) => FileBytes[],
  onProgress?: (progress: EvaluationProgress) => void,
): LotEvaluation {
  const problems = checkBundle(bundle);
  if (problems.length > 0) throw new Refusal(problems);

  const runs: EvaluatedRun[] = [];
  const refused: UnreadRun[] = [];
  const readIn = new Map<string, string>();
  const of = bundle.runs.length;
  const inOrder = bundle.runs.map((run, done): EvaluatedRun | UnreadRun => {
    onProgress?.({ run: run.run, done, of, share: 0 });
    try {
      const one = evaluateRun(bundle, run, filesOf(run.run), (read, total) =>
        onProgress?.({ run: run.run, done, of, share: total === 0 ? 1 : read / total }),
      );
      refuseRepeated(one, readIn);
      runs.push(one);
      return one;
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      const one: UnreadRun = { run, unread: error.problems };
      refused.push(one);
      return one;
    }
  });
  onProgress?.({ run: '', done: of, of, share: 0 });
  return { result: judgeLot({ ...bundle, runs: inOrder }), runs: flagNearDuplicates(runs), refused };
}

/** One record cannot be that of two runs, whatever its name. */
function refuseRepeated({ run, reading }: EvaluatedRun, readIn: Map<string, string>): void {
  for (const { name, sha256 } of reading.files) {
    const other = readIn.get(sha256);
    if (other !== undefined)
      throw new Refusal({
        code: 'run.duplicate',
        file: name,
        detail: `${shown(name)} is byte for byte the file of run ${other}. Send the file of run ${run.run}.`,
        found: sha256,
      });
    readIn.set(sha256, run.run);
  }
}

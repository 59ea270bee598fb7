import { sha256 } from '@breakbook/evidence';
import { type LotBundle, type Problem, Refusal, type Run, shown } from '@breakbook/lab';
import { type ReadRun, readRun, type SentFile } from '@breakbook/signals';
import { judgeRun } from '../runs/judge-run.js';
import type { JudgedRun } from './claim.js';

export interface FileBytes {
  name: string;
  bytes: Uint8Array;
}

/** A run as read and judged, with the traces it was read from. */
export type EvaluatedRun = JudgedRun & Pick<ReadRun, 'traces'>;

/**
 * Reads one run of a bundle whose records fit each other, and judges it. Throws a `Refusal` where a file is missing,
 * differs from the one recorded, or cannot be read.
 */
export function evaluateRun(
  bundle: LotBundle,
  run: Run,
  given: readonly FileBytes[],
  onProgress?: (done: number, total: number) => void,
): EvaluatedRun {
  const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  if (!method) throw new Error(`evaluateRun: the bundle holds no ${run.method} rev. ${run.methodRevision}`);
  const rig = bundle.rigs.find((one) => one.rig === run.rig);
  const layout = bundle.layouts.find((one) => one.rig === run.rig && one.revision === run.layoutRevision);
  const { reading, traces } = readRun({
    method,
    ...(layout ? { layout } : {}),
    ...(rig ? { rig } : {}),
    calibrations: bundle.calibrations,
    files: filesAsRecorded(run, given),
    run,
    markedMaximum: bundle.product.markedMaximum,
    ...(bundle.product.glassTransition ? { glassTransition: bundle.product.glassTransition } : {}),
    ...(onProgress ? { onProgress } : {}),
  });
  return {
    run,
    reading,
    traces,
    judgement: judgeRun({ plan: bundle.plan, method, limits: bundle.limits, reading, run }),
  };
}

/** The files that the run names, with their digests; a digest recorded with the run must be that of the bytes. */
function filesAsRecorded(run: Run, given: readonly FileBytes[]): SentFile[] {
  const problems: Problem[] = [];
  const files = run.files.flatMap(({ name, sha256: recorded }): SentFile[] => {
    const file = given.find((one) => one.name === name);
    if (!file) {
      problems.push({
        code: 'file.missing',
        file: name,
        detail: `Run ${run.run} names the file ${shown(name)}, and it did not come. Send it with the run.`,
      });
      return [];
    }
    const digest = sha256(file.bytes);
    if (recorded !== undefined && recorded !== digest)
      problems.push({
        code: 'state.conflict',
        file: name,
        detail: `${shown(name)} is not the file that run ${run.run} was recorded with: its SHA-256 differs. Put the recorded file back; a changed one is another record.`,
        found: digest,
        expected: recorded,
      });
    return [{ name, bytes: file.bytes, sha256: digest }];
  });
  if (problems.length > 0) throw new Refusal(problems);
  return files;
}

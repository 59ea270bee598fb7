import { type LotBundle, Refusal, type RunJudgement, withoutSoftware } from '@breakbook/lab';
import { type RawStore, type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { evaluatedRecords } from '../evaluations/evaluated-records.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import type { TaskOptions, Workers } from '../workers/workers.js';

/** What an evaluation says: of the lot, and of each run that entered, by the run's name. */
export interface Judged {
  /** Without the version of the software that made it. */
  result: object;
  judgements: Record<string, RunJudgement>;
}

/** An evaluation as it was kept. */
export async function judgedThen(reader: Reader, evaluation: tables.Evaluation): Promise<Judged> {
  const inputs = await reader.find(tables.EvaluationInput, { evaluationId: evaluation.id });
  const sets = await reader.find(tables.VerdictSet, { id: In(inputs.map(({ verdictSetId }) => verdictSetId)) });
  return { result: withoutSoftware(evaluation.content), judgements: byRun(sets.map(({ content }) => content)) };
}

/** The same lot judged again from the records that were kept beside the evaluation and from the kept bytes. */
export async function judgedAgain(
  evaluation: tables.Evaluation,
  { reader, store, workers }: { reader: Reader; store: RawStore; workers: Workers },
  options: TaskOptions,
): Promise<Judged> {
  const bundle = await evaluatedRecords(reader, store, evaluation);
  if (!bundle)
    throw new Refusal({
      code: 'state.conflict',
      detail: 'The records this evaluation was made from were not kept beside it.',
      action: 'Evaluate the lot again; that judgement can then be recomputed.',
    });
  return inSpool(async (folder) => {
    const files = [];
    for (const run of bundle.runs)
      files.push({ run: run.run, files: await spoolRaw({ store, reader, folder }, await keptFiles(reader, run)) });
    const { result, runs } = await workers.run('evaluate lot', { bundle, files }, options);
    return { result: withoutSoftware(result), judgements: byRun(runs.map(({ judgement }) => judgement)) };
  });
}

/** The bytes that stood behind the run's files when the lot was judged: those of the digests its records name. */
async function keptFiles(
  reader: Reader,
  { run: key, files }: LotBundle['runs'][number],
): Promise<{ name: string; rawId: string }[]> {
  const run = await reader.named(tables.Run, key);
  const rows = await reader.find(tables.RunFile, { runId: run.id });
  const raw = await reader.find(tables.RawBytes, { id: In(rows.map(({ rawId }) => rawId)) });
  return files.map(({ name, sha256 }) => {
    const kept = raw.find((one) => one.sha256 === sha256);
    if (!kept)
      throw new Refusal({
        code: 'state.conflict',
        detail: `Run ${key}: no kept bytes have the digest that the records of this evaluation name for ${name}.`,
      });
    return { name, rawId: kept.id };
  });
}

function byRun(judgements: RunJudgement[]): Record<string, RunJudgement> {
  return Object.fromEntries(judgements.map((one) => [one.run, one]));
}

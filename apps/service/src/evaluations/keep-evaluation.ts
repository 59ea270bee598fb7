import { canonicalJson } from '@breakbook/evidence';
import { type PreparedRaw, prepareRaw, type RawStore, type Rows, rawFromBytes, tables } from '@breakbook/records';
import type { StoredLot } from '../lots/lot-bundle.js';
import { openForRun } from '../nonconformities/open-for-run.js';
import { writeReading } from '../runs/write-run.js';
import type { EvaluationOnly } from '../workers/tasks.js';

/** The records of a lot as they are kept beside its evaluation; made ready before the transaction opens. */
export function recordsOfLot({ bundle }: StoredLot): Promise<PreparedRaw> {
  return prepareRaw(rawFromBytes(new TextEncoder().encode(canonicalJson(bundle))));
}

/** An evaluation with everything it rests on: the verdicts that entered, the readings they judge, the records as they stood. */
export async function keepEvaluation(
  rows: Rows,
  store: RawStore,
  lot: StoredLot,
  { result, runs }: EvaluationOnly,
  recordsRaw: PreparedRaw,
): Promise<tables.Evaluation> {
  const records = await store.keep(rows, recordsRaw);
  const verdictSetIds: string[] = [];
  for (const { run, reading, judgement } of runs) {
    const ids = lot.ids.runs.get(run.run);
    if (!ids) throw new Error(`Run ${run.run} was judged and is not in the lot's list.`);
    const set = await rows.add(tables.VerdictSet, {
      runId: ids.runId,
      readingId: (await keptReading(rows, ids, reading)).id,
      planRevisionId: lot.ids.planRevisionId,
      examinationId: ids.examinationId,
      validityDecisionId: ids.validityDecisionId,
      software: result.software,
      content: judgement,
    });
    verdictSetIds.push(set.id);
    await openForRun(rows, {
      runId: ids.runId,
      lot: { id: lot.ids.lotId, key: lot.bundle.lot.lot },
      judgement,
      decision: run.validity,
    });
  }
  const evaluation = await rows.add(tables.Evaluation, {
    lotId: lot.ids.lotId,
    planRevisionId: lot.ids.planRevisionId,
    recordsId: records.id,
    software: result.software,
    content: result,
  });
  for (const verdictSetId of verdictSetIds)
    await rows.add(tables.EvaluationInput, { evaluationId: evaluation.id, verdictSetId });
  return evaluation;
}

/** The reading that was judged: one that is kept already, or a further one beside it where the files read otherwise now. */
async function keptReading(
  rows: Rows,
  { runId, runVersionId }: { runId: string; runVersionId: string },
  reading: tables.Reading['content'],
): Promise<tables.Reading> {
  const same = canonicalJson(reading);
  const kept = (await rows.find(tables.Reading, { runId })).findLast(({ content }) => canonicalJson(content) === same);
  return kept ?? writeReading(rows, runId, await rows.one(tables.RunVersion, runVersionId), reading);
}

import { type EvaluatedRun, evaluateLot, evaluateRun, type FileBytes, type LotEvaluation } from '@breakbook/acceptance';
import { Refusal, SOFTWARE } from '@breakbook/lab';
import {
  type Actor,
  prepareRaw,
  type RawStore,
  type Reader,
  type Records,
  type Rows,
  rawFromBytes,
  readWhole,
  tables,
} from '@breakbook/records';
import { composeDocument, lotReportContent } from '@breakbook/reports';
import { type StoredLot, storedLot } from '../lots/lot-bundle.js';

export interface StoredEvaluation {
  evaluationId: string;
  number: number;
  evaluation: LotEvaluation;
  lot: StoredLot;
}

/** Reads a lot's raw files again from their kept bytes and judges it: what a report is made from. */
export async function evaluateStored(
  reader: Reader,
  store: RawStore,
  lotKey: string,
): Promise<{ lot: StoredLot; evaluation: LotEvaluation }> {
  const lot = await storedLot(reader, lotKey);
  const bytes = new Map<string, FileBytes[]>();
  for (const [run, { files }] of lot.ids.runs) bytes.set(run, await bytesOf(reader, store, files));
  return { lot, evaluation: evaluateLot(lot.bundle, (run) => bytes.get(run) ?? []) };
}

/** One run of a lot, read again from its kept bytes. */
export async function evaluateStoredRun(
  reader: Reader,
  store: RawStore,
  lot: StoredLot,
  runKey: string,
): Promise<EvaluatedRun> {
  const run = lot.bundle.runs.find((one) => one.run === runKey);
  const ids = lot.ids.runs.get(runKey);
  if (!run || !ids)
    throw new Refusal({ code: 'request.not-found', detail: `Lot ${lot.bundle.lot.lot} has no run ${runKey}.` });
  return evaluateRun(lot.bundle, run, await bytesOf(reader, store, ids.files));
}

function bytesOf(reader: Reader, store: RawStore, files: { name: string; rawId: string }[]): Promise<FileBytes[]> {
  return Promise.all(files.map(async ({ name, rawId }) => ({ name, bytes: await readWhole(store, reader, rawId) })));
}

/** Judges a lot and keeps the judgement with everything it rests on, and the report of it as an unsigned draft. */
export async function evaluateAndKeep(
  records: Records,
  store: RawStore,
  by: Actor,
  lotKey: string,
): Promise<StoredEvaluation> {
  const { lot, evaluation } = await evaluateStored(records.read(by.labId), store, lotKey);
  const kept = await records.change(by, 'lot evaluated', (rows) => keepEvaluation(rows, lot, evaluation));
  await keepReport(records, store, by, { lot, evaluation, kept });
  return { evaluationId: kept.id, number: kept.number, evaluation, lot };
}

async function keepReport(
  records: Records,
  store: RawStore,
  by: Actor,
  { lot, evaluation, kept }: { lot: StoredLot; evaluation: LotEvaluation; kept: tables.Evaluation },
): Promise<void> {
  const identity = {
    number: `LTR-${lot.bundle.lot.lot}-${kept.number}`,
    revision: 1,
    issuedAt: kept.at.toISOString(),
    signatures: [],
  };
  const content = lotReportContent({ bundle: lot.bundle, evaluation, document: identity });
  // Composed before the transaction opens: a long report must hold no lock.
  const raw = await prepareRaw(rawFromBytes(await composeDocument('lot test report', content, { paper: 'A4' })));
  await records.change(by, 'report composed', async (rows) => {
    const { id: rawId } = await store.keep(rows, raw);
    await rows.add(tables.Document, {
      kind: 'lot test report',
      evaluationId: kept.id,
      rawId,
      software: SOFTWARE,
      content,
    });
  });
}

async function keepEvaluation(rows: Rows, lot: StoredLot, { result, runs }: LotEvaluation): Promise<tables.Evaluation> {
  const verdictSetIds: string[] = [];
  for (const { run, judgement } of runs) {
    const ids = lot.ids.runs.get(run.run);
    if (!ids) throw new Error(`Run ${run.run} was judged and is not in the lot's list.`);
    const [reading] = (await rows.find(tables.Reading, { runId: ids.runId })).slice(-1);
    if (!reading) throw new Error(`Run ${run.run} was judged and has no reading.`);
    const set = await rows.add(tables.VerdictSet, {
      runId: ids.runId,
      readingId: reading.id,
      planRevisionId: lot.ids.planRevisionId,
      examinationId: (await rows.latestOf(tables.Examination, [ids.runId])).get(ids.runId)?.id ?? null,
      validityDecisionId: (await rows.latestOf(tables.ValidityDecision, [ids.runId])).get(ids.runId)?.id ?? null,
      software: result.software,
      content: judgement,
    });
    verdictSetIds.push(set.id);
  }
  const evaluation = await rows.add(tables.Evaluation, {
    lotId: lot.ids.lotId,
    planRevisionId: lot.ids.planRevisionId,
    software: result.software,
    content: result,
  });
  for (const verdictSetId of verdictSetIds)
    await rows.add(tables.EvaluationInput, { evaluationId: evaluation.id, verdictSetId });
  return evaluation;
}

import type { FileBytes, LotEvaluation } from '@breakbook/acceptance';
import { SOFTWARE } from '@breakbook/lab';
import {
  type Actor,
  prepareRaw,
  type RawStore,
  type Reader,
  type Records,
  rawFromBytes,
  readWhole,
  tables,
} from '@breakbook/records';
import { acceptance, reports } from '../arithmetic.js';
import { reportAffairsOf } from '../dispositions/affairs-of.js';
import { reportIdentity } from '../documents/report-identity.js';
import { type StoredLot, storedLot } from '../lots/lot-bundle.js';
import { keepEvaluation, recordsOfLot } from './keep-evaluation.js';

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
  const { evaluateLot } = await acceptance();
  return { lot, evaluation: evaluateLot(lot.bundle, (run) => bytes.get(run) ?? []) };
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
  const recordsRaw = await recordsOfLot(lot);
  const kept = await records.change(by, 'lot evaluated', (rows) =>
    keepEvaluation(rows, store, lot, evaluation, recordsRaw),
  );
  const { composeDocument, lotReportContent } = await reports();
  const content = lotReportContent({
    bundle: lot.bundle,
    evaluation,
    document: reportIdentity(lot.bundle.lot.lot, kept.number, kept.at),
    affairs: await reportAffairsOf(records.read(by.labId), lot.ids.lotId, kept.at),
  });
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
  return { evaluationId: kept.id, number: kept.number, evaluation, lot };
}

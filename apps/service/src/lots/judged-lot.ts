import { type RawStore, type Reader, tables } from '@breakbook/records';
import type { JudgedLot } from '@breakbook/reports';
import { In } from 'typeorm';
import { evaluatedRecords } from '../evaluations/evaluated-records.js';
import { storedLot } from './lot-bundle.js';

/** The last evaluation of each of these lots; a lot that was never evaluated is not among them. */
export async function lastEvaluations(reader: Reader, lotIds: string[]): Promise<Map<string, tables.Evaluation>> {
  const last = await reader.manager.query<{ id: string }[]>(
    `select distinct on (lot_id) id from evaluation where lab_id = $1 and lot_id = any($2) order by lot_id, id desc`,
    [reader.labId, lotIds],
  );
  const evaluations = await reader.find(tables.Evaluation, { id: In(last.map(({ id }) => id)) });
  return new Map(evaluations.map((one) => [one.lotId, one]));
}

/** A lot as this evaluation of it left it: what was added to its records since is not in what was judged. */
export async function judgedLot(
  reader: Reader,
  store: RawStore,
  lotKey: string,
  evaluation: tables.Evaluation,
): Promise<JudgedLot> {
  const inputs = await reader.find(tables.EvaluationInput, { evaluationId: evaluation.id });
  const ids = inputs.map(({ verdictSetId }) => verdictSetId);
  const sets = new Map((await reader.find(tables.VerdictSet, { id: In(ids) })).map((one) => [one.id, one.content]));
  return {
    bundle: (await evaluatedRecords(reader, store, evaluation)) ?? (await storedLot(reader, lotKey)).bundle,
    lot: evaluation.content,
    judgements: ids.flatMap((id) => sets.get(id) ?? []),
  };
}

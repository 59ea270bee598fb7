import type { RawStore, Reader, tables } from '@breakbook/records';
import type { JudgedLot } from '@breakbook/reports';
import { evaluatedRecords } from '../evaluations/evaluated-records.js';
import { judgementsOf } from '../evaluations/judgements-of.js';
import { storedLot } from './lot-bundle.js';

/** A lot as this evaluation of it left it: what was added to its records since is not in what was judged. */
export async function judgedLot(
  reader: Reader,
  store: RawStore,
  lotKey: string,
  evaluation: tables.Evaluation,
): Promise<JudgedLot> {
  return {
    bundle: (await evaluatedRecords(reader, store, evaluation)) ?? (await storedLot(reader, lotKey)).bundle,
    lot: evaluation.content,
    judgements: await judgementsOf(reader, evaluation),
  };
}

import type { LotBundle } from '@breakbook/lab';
import { type RawStore, type Reader, readWhole, type tables } from '@breakbook/records';

/** The records an evaluation was made from, as they stood; undefined for one made before they were kept beside it. */
export async function evaluatedRecords(
  reader: Reader,
  store: RawStore,
  { recordsId }: tables.Evaluation,
): Promise<LotBundle | undefined> {
  if (recordsId === null) return undefined;
  return JSON.parse((await readWhole(store, reader, recordsId)).toString('utf8')) as LotBundle;
}

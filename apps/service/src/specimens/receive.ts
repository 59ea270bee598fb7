import { Refusal, type Specimen } from '@breakbook/lab';
import { type Rows, tables } from '@breakbook/records';
import { requireOpen } from '../lots/lot-closing.js';
import { define, type Said } from '../records/write-kind.js';
import { SPECIMEN } from './specimen-kind.js';

/** Receives one specimen of a lot that is open and holds that many. `at` is its place in the body. */
export async function receive(
  rows: Rows,
  specimen: Specimen,
  at: string,
): Promise<Said<tables.Specimen, tables.SpecimenVersion>> {
  const lot = await rows.maybe(tables.Lot, { key: specimen.lot });
  // A lot that is not there is refused, with its place, when the specimen is written.
  if (lot) {
    await rows.lock(tables.Lot, lot.id);
    await requireOpen(rows, lot, 'receive a specimen', `${at}/lot`);
    await refuseBeyondSize(rows, lot, `${at}/lot`);
  }
  return define(rows, SPECIMEN, specimen, at);
}

async function refuseBeyondSize(rows: Rows, lot: tables.Lot, pointer: string): Promise<void> {
  const { content } = await rows.latest(tables.LotVersion, lot.id);
  const specimens = await rows.find(tables.Specimen, { lotId: lot.id });
  if (specimens.length < content.size) return;
  throw new Refusal({
    code: 'state.conflict',
    pointer,
    detail: `Lot ${lot.key} holds ${content.size}, and ${specimens.length} specimens came from it already.`,
    action: 'Check the lot of this specimen, or correct the size of the lot.',
  });
}

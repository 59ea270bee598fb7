import { type DocumentBatchContent, MOST_IN_BATCH, Refusal } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { reports } from '../../arithmetic.js';
import type { NewBatch } from './batch-answer.js';

/** What a batch of a lot has to make, by what there is now; refused where there is nothing, or too much. */
export async function batchItems(
  reader: Reader,
  lot: tables.Lot,
  asked: NewBatch,
): Promise<DocumentBatchContent['items']> {
  const specimens = await reader.find(tables.Specimen, { lotId: lot.id }, { number: 'asc' });
  const keys = specimens.map(({ key }) => key);
  const items = await itemsOf(reader, specimens, keys, asked);
  if (items.length > 0 && items.length <= MOST_IN_BATCH) return items;
  throw new Refusal({
    code: 'state.conflict',
    detail:
      items.length === 0
        ? `Lot ${lot.key} has no ${asked.kind === 'run sheet' ? 'runs' : 'specimens'} yet, so there is nothing to make.`
        : `Lot ${lot.key} comes to ${items.length} documents, and one batch has ${MOST_IN_BATCH} at most.`,
    action:
      items.length === 0 ? 'Come back when there is something.' : 'Have them made one by one, or take a larger grid.',
  });
}

async function itemsOf(
  reader: Reader,
  specimens: tables.Specimen[],
  keys: string[],
  { kind, grid }: NewBatch,
): Promise<string[][]> {
  if (kind === 'specimen record') return keys.map((key) => [key]);
  if (kind === 'run sheet') {
    const runs = await reader.find(tables.Run, { specimenId: In(specimens.map(({ id }) => id)) }, { number: 'asc' });
    return runs.map(({ key }) => [key]);
  }
  const { LABEL_GRIDS } = await reports();
  const { columns, rows } = LABEL_GRIDS[grid];
  const places = columns * rows;
  return Array.from({ length: Math.ceil(keys.length / places) }, (_, sheet) =>
    keys.slice(sheet * places, (sheet + 1) * places),
  );
}

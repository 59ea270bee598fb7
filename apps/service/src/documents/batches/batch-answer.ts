import { DocumentBatchContent, Instant, Key, LabelCode, LabelGridName, PLAIN_PRINT } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';

const { kind, paper, language, units } = DocumentBatchContent.shape;

/** All sheets of one kind of a lot, and how they are printed. Grid and code are those of labels. */
export const NewBatch = z.strictObject({
  kind,
  paper: paper.default(PLAIN_PRINT.paper),
  language: language.default(PLAIN_PRINT.language),
  /** Of what is kept in others; nothing that is stored changes. */
  units: units.default(PLAIN_PRINT.units),
  grid: LabelGridName.default('A4, 24 of 70 × 37 mm'),
  code: LabelCode.default('data matrix'),
});
export type NewBatch = z.infer<typeof NewBatch>;

/** What the job is asked for; with the number of the batch where one is to go on. */
export const BatchAsked = NewBatch.extend({ lot: Key, batch: z.number().int().min(1).optional() });

export const BatchInList = z.strictObject({
  number: z.number().int(),
  lot: Key,
  kind,
  at: Instant,
  by: Key,
  /** So many documents are made, of so many. */
  made: z.number().int(),
  of: z.number().int(),
  state: z.enum(['going on', 'stopped', 'complete']),
  /** The job that is at it or is waiting to be. */
  job: z.uuid().nullable(),
});
export type BatchInList = z.infer<typeof BatchInList>;

/** A batch with the numbers of the documents made so far, in its order. */
export const BatchAnswer = BatchInList.extend({ documents: z.array(z.number().int()) });
export type BatchAnswer = z.infer<typeof BatchAnswer>;

export async function batchNumbered(reader: Reader, number: number): Promise<tables.DocumentBatch> {
  return (await reader.maybe(tables.DocumentBatch, { number })) ?? reader.one(tables.DocumentBatch, `${number}`);
}

export async function batchInList(reader: Reader, batch: tables.DocumentBatch): Promise<BatchInList> {
  const made = await madeOf(reader, batch);
  const of = batch.content.items.length;
  const job = await openJobOf(reader, batch);
  return {
    number: batch.number,
    lot: (await reader.one(tables.Lot, batch.lotId)).key,
    kind: batch.content.kind,
    at: batch.at.toISOString(),
    by: (await reader.one(tables.Person, batch.personId)).key,
    made,
    of,
    state: made >= of ? 'complete' : job ? 'going on' : 'stopped',
    job: job ?? null,
  };
}

export async function batchAnswer(reader: Reader, batch: tables.DocumentBatch): Promise<BatchAnswer> {
  const rows = await reader.manager.query<{ number: number }[]>(
    `select document.number from batch_document made
     join document on document.lab_id = made.lab_id and document.id = made.document_id
     where made.lab_id = $1 and made.batch_id = $2 order by made.position`,
    [reader.labId, batch.id],
  );
  return { ...(await batchInList(reader, batch)), documents: rows.map(({ number }) => number) };
}

async function madeOf({ manager, labId }: Reader, { id }: tables.DocumentBatch): Promise<number> {
  const [found] = await manager.query<{ made: number }[]>(
    'select count(*)::integer as made from batch_document where lab_id = $1 and batch_id = $2',
    [labId, id],
  );
  return found?.made ?? 0;
}

/** A batch has the id of the job that began it; one that goes on with it names its number. */
export async function openJobOf(
  { manager, labId }: Reader,
  { id, number }: tables.DocumentBatch,
): Promise<string | undefined> {
  const [open] = await manager.query<{ id: string }[]>(
    `select id from job where lab_id = $1 and kind = 'document batch'
       and (id = $2 or (subject ->> 'batch')::integer = $3)
       and not exists (select from job_end where lab_id = job.lab_id and id = job.id)
     order by at desc limit 1`,
    [labId, id, number],
  );
  return open?.id;
}

import { Instant, Key, Line, OldResult, Paragraph, Problem } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { z } from 'zod';
import { peopleBehind } from '../records/read-kind.js';

/** What the address of a new table says of it; its bytes are the body. */
export const NewOldTable = z.strictObject({
  /** As the file is called. */
  name: Line,
  /** Where it comes from. */
  note: Paragraph,
});
export type NewOldTable = z.infer<typeof NewOldTable>;

export const TrialAsked = NewOldTable.omit({ note: true });
export type TrialAsked = z.infer<typeof TrialAsked>;

/** A row as it would be stored, or is: told by a table, with no raw file, not recomputable. */
export const OldResultAnswer = OldResult.extend({
  /** Whether a lot of this lab is called so; else the result is shown with its product alone. */
  lotKnown: z.boolean(),
});
export type OldResultAnswer = z.infer<typeof OldResultAnswer>;

/** What would be stored. */
export const OldTableTrial = z.strictObject({
  bytes: z.number().int(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  results: z.array(OldResultAnswer),
  flags: z.array(Problem),
});
export type OldTableTrial = z.infer<typeof OldTableTrial>;

export const OldTableInList = z.strictObject({
  number: z.number().int().min(1),
  name: Line,
  note: Paragraph,
  rows: z.number().int(),
  bytes: z.number().int(),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  at: Instant,
  by: Key,
  flags: z.array(Problem),
  withdrawn: z.strictObject({ at: Instant, by: Key, reason: Line }).optional(),
});
export type OldTableInList = z.infer<typeof OldTableInList>;

export const OldTableAnswer = OldTableInList.extend({ results: z.array(OldResultAnswer) });
export type OldTableAnswer = z.infer<typeof OldTableAnswer>;

/** Results beside a lot or a product, each with the number of the table that tells it. */
export const OldResultsBeside = z.strictObject({ items: z.array(OldResultAnswer.extend({ table: z.number().int() })) });
export type OldResultsBeside = z.infer<typeof OldResultsBeside>;

export async function tablesAsListed(reader: Reader, rows: readonly tables.OldTable[]): Promise<OldTableInList[]> {
  const withdrawals = await reader.find(tables.OldTableWithdrawal, { tableId: In(rows.map(({ id }) => id)) });
  const raws = await reader.find(tables.RawBytes, { id: In(rows.map(({ rawId }) => rawId)) });
  const people = await peopleBehind(reader, [...rows, ...withdrawals]);
  return rows.map(({ id, number, name, note, rawId, results, flags, at, personId }) => {
    const raw = raws.find((one) => one.id === rawId);
    if (!raw) throw new Error(`Table ${number} names bytes that are not there.`);
    const withdrawal = withdrawals.find(({ tableId }) => tableId === id);
    return {
      number,
      name,
      note,
      rows: results,
      bytes: raw.size,
      sha256: raw.sha256,
      at: at.toISOString(),
      by: people.get(personId) ?? '',
      flags,
      ...(withdrawal
        ? {
            withdrawn: {
              at: withdrawal.at.toISOString(),
              by: people.get(withdrawal.personId) ?? '',
              reason: withdrawal.reason,
            },
          }
        : {}),
    };
  });
}

export function resultsAsAnswered(rows: readonly tables.OldResult[]): OldResultAnswer[] {
  return rows.map(({ content, lotId }) => ({ ...content, lotKnown: lotId !== null }));
}

/** Old results of a lot or a product, in the order of their tables and lines; those of withdrawn tables left out. */
export async function oldResultsBeside(
  reader: Reader,
  where: { lotId: string } | { productId: string },
): Promise<OldResultsBeside['items']> {
  const rows = await reader.find(tables.OldResult, where, { line: 'asc' });
  const tableIds = [...new Set(rows.map(({ tableId }) => tableId))];
  const withdrawn = await reader.find(tables.OldTableWithdrawal, { tableId: In(tableIds) });
  const gone = new Set(withdrawn.map(({ tableId }) => tableId));
  const kept = await reader.find(tables.OldTable, { id: In(tableIds) }, { number: 'asc' });
  return kept
    .filter(({ id }) => !gone.has(id))
    .flatMap(({ id, number }) =>
      resultsAsAnswered(rows.filter(({ tableId }) => tableId === id)).map((one) => ({ ...one, table: number })),
    );
}

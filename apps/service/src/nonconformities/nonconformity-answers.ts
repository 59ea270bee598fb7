import { Instant, Key, Nonconformity, NonconformityState, Paragraph } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';

/** A nonconformity as it stands. */
export const NonconformityAnswer = z.strictObject({
  number: z.number().int().min(1),
  /** To be given back in If-Match with what is said of it next. */
  version: z.number().int().min(1),
  state: NonconformityState,
  openedBy: Key,
  openedAt: Instant,
  /** Who said what is in force, when and why. */
  by: Key,
  at: Instant,
  reason: Paragraph.optional(),
  content: Nonconformity,
  /** Every lot it concerns, those of its runs and specimens too; while it is open, none of them is disposed of. */
  concerns: z.array(Key),
});
export type NonconformityAnswer = z.infer<typeof NonconformityAnswer>;

export const NonconformityVersionAnswer = NonconformityAnswer.omit({
  number: true,
  openedBy: true,
  openedAt: true,
  concerns: true,
});
export type NonconformityVersionAnswer = z.infer<typeof NonconformityVersionAnswer>;

export const NonconformitiesAsked = z.strictObject({
  ...PAGING,
  state: z.enum([...NonconformityState.options, 'any']).optional(),
  lot: Key.optional(),
});
export type NonconformitiesAsked = z.infer<typeof NonconformitiesAsked>;

/** What a person opens; how it came to be opened is not for them to say. */
export const NewNonconformity = z.strictObject(Nonconformity.shape).omit({ source: true });
export type NewNonconformity = z.infer<typeof NewNonconformity>;

export const ChangedNonconformity = z.strictObject({ reason: Paragraph, content: NewNonconformity });
export type ChangedNonconformity = z.infer<typeof ChangedNonconformity>;

export async function nonconformityAnswer(
  reader: Reader,
  noun: tables.Nonconformity,
  version: tables.NonconformityVersion,
): Promise<NonconformityAnswer> {
  const people = await peopleBehind(reader, [noun, version]);
  const lots: string[] = [];
  for (const { lotId } of await reader.find(tables.NonconformityLot, { versionId: version.id }))
    lots.push((await reader.one(tables.Lot, lotId)).key);
  return {
    number: noun.number,
    openedBy: people.get(noun.personId) ?? '',
    openedAt: noun.at.toISOString(),
    ...versionAnswer(version, people),
    concerns: lots.sort(),
  };
}

export function versionAnswer(
  version: tables.NonconformityVersion,
  people: ReadonlyMap<string, string>,
): NonconformityVersionAnswer {
  return {
    version: version.version,
    state: version.state,
    by: people.get(version.personId) ?? '',
    at: version.at.toISOString(),
    ...(version.reason === null ? {} : { reason: version.reason }),
    content: version.content,
  };
}

import { Refusal, shown } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { LessThan, MoreThan } from 'typeorm';
import type { PageOf } from '../records/kept.js';
import { nextPlace, type Paging, pageAsked } from '../records/paging.js';
import { peopleBehind } from '../records/read-kind.js';
import type { EntryInFull, EntryInList, Head } from './ledger-answers.js';

/** A piece of the ledger. Its order is that of the sequence, never that of a clock. */
export async function entriesPage(reader: Reader, paging: Paging): Promise<PageOf<EntryInList>> {
  const { manager, labId } = reader;
  const { after, descending, limit } = pageAsked(paging, 'sequence');
  const place = after === undefined ? {} : { sequence: descending ? LessThan(after) : MoreThan(after) };
  const entries = await manager.find(tables.LedgerEntry, {
    where: { labId, ...place },
    order: { sequence: descending ? 'desc' : 'asc' },
    take: limit + 1,
    // The text of an entry that names a thousand rows is long, and no list shows it.
    select: { labId: true, id: true, sequence: true, at: true, personId: true, action: true, reason: true, hash: true },
  });
  const people = await peopleBehind(reader, entries);
  const items = entries.slice(0, limit).map((entry) => inList(entry, people));
  return { items, next: nextPlace(items.at(-1)?.sequence, entries.length > limit) };
}

/** One entry, by its number in the sequence. */
export async function entryInFull(reader: Reader, sequence: string): Promise<EntryInFull> {
  const entry = /^[1-9]\d{0,8}$/.test(sequence)
    ? await reader.manager.findOne(tables.LedgerEntry, { where: { labId: reader.labId, sequence: Number(sequence) } })
    : null;
  if (!entry) throw new Refusal({ code: 'request.not-found', detail: `The ledger has no entry "${shown(sequence)}".` });
  const { previous, text } = entry;
  return { ...inList(entry, await peopleBehind(reader, [entry])), previous, text };
}

/** The last entry. A lab has one from its founding on. */
export async function headOf({ manager, labId }: Reader): Promise<Head> {
  const [head] = await manager.query<Head[]>(
    'select lab_id as lab, sequence, hash from ledger_head where lab_id = $1',
    [labId],
  );
  if (!head) throw new Error('The lab has no ledger, though founding it wrote the first entry.');
  return head;
}

function inList(entry: tables.LedgerEntry, people: ReadonlyMap<string, string>): EntryInList {
  const { sequence, at, personId, action, reason, hash } = entry;
  return {
    sequence,
    at: at.toISOString(),
    by: people.get(personId) ?? '',
    action,
    ...(reason === null ? {} : { reason }),
    hash,
  };
}

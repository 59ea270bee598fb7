import { type ChainHead, linkEntry, parseEntry } from '@breakbook/evidence';

/** Statements that give entries other numbers; by way of negative ones, since a number is there once. */
export function moved(which: string, to: string): string[] {
  return [
    `update ledger_entry set sequence = -(${to}) where ${which}`,
    'update ledger_entry set sequence = -sequence where sequence < 0',
  ];
}

/** The entry after this one; after the last, the first. */
export function other(texts: readonly string[], at: number): number {
  return 1 + (at % texts.length);
}

/** Puts a copy of an entry, of its own id, into a place that is free. */
export function copied(of: number, at: number): string {
  return `insert into ledger_entry (lab_id, id, sequence, previous, at, person_id, action, reason, text, hash)
    select lab_id, gen_random_uuid(), ${at}, previous, at, person_id, action, reason, text, hash
    from ledger_entry where sequence = ${of} + ${of >= at ? 1 : 0}`;
}

const OWN_CHECKPOINTS = 'delete from ledger_checkpoint';

/** Takes away the last entries with all they wrote, and lets the ledger end before them. */
export function cutTo(texts: readonly string[], left: number): string[] {
  const rows = texts.slice(left).flatMap((text) => parseEntry(text).rows);
  const head =
    left === 0
      ? 'delete from ledger_head'
      : `update ledger_head set (sequence, hash) =
    (select sequence, hash from ledger_entry where sequence = ${left})`;
  return [
    OWN_CHECKPOINTS,
    ...rows.map(({ table, id }) => `delete from "${table}" where id = '${id}'`),
    head,
    `delete from ledger_entry where sequence > ${left}`,
  ];
}

/** Writes the ledger as if the entry of this number had said something else, and every later one after it. */
export function writtenAnew(texts: readonly string[], from: number): string[] {
  const statements: string[] = [];
  let head: ChainHead | undefined;
  for (const text of texts) {
    const { sequence, previous: _, ...content } = parseEntry(text);
    const before = head?.hash;
    const action = sequence === from ? 'nothing of note' : content.action;
    const entry = linkEntry(head, { ...content, action });
    head = entry;
    if (sequence >= from)
      statements.push(
        `update ledger_entry set action = '${action}', hash = '${entry.hash}', text = $text$${entry.text}$text$
         ${before === undefined ? '' : `, previous = '${before}'`} where sequence = ${sequence}`,
      );
  }
  return [OWN_CHECKPOINTS, ...statements, `update ledger_head set hash = '${head?.hash}'`];
}

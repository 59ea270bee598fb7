import { type ChainHead, linkEntry, NO_ENTRY } from '@breakbook/evidence';
import { newId, type Rows } from './rows.js';

/** Writes the one entry of a change. Until the transaction ends, every other change of this lab waits here. */
export async function writeEntry(rows: Rows, action: string): Promise<void> {
  const head = await lockedHead(rows);
  const id = newId();
  const entry = linkEntry(head, {
    id,
    lab: rows.labId,
    at: rows.at.toISOString(),
    by: rows.by.personId,
    action,
    ...(rows.reason === undefined ? {} : { reason: rows.reason }),
    rows: rows.noted,
  });
  // Entry and head in one statement: what happens here, the lab's other changes wait for.
  await rows.manager.query(
    `with entry as (
       insert into ledger_entry (lab_id, id, sequence, previous, at, person_id, action, reason, text, hash)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
       returning lab_id, sequence, hash
     )
     update ledger_head set sequence = entry.sequence, hash = entry.hash
     from entry where ledger_head.lab_id = entry.lab_id`,
    [
      rows.labId,
      id,
      entry.sequence,
      head?.hash ?? NO_ENTRY,
      rows.at,
      rows.by.personId,
      action,
      rows.reason ?? null,
      entry.text,
      entry.hash,
    ],
  );
}

/** The lab's last entry, locked; undefined in a lab without one. */
async function lockedHead({ manager, labId }: Rows): Promise<ChainHead | undefined> {
  const locked = 'select sequence, hash from ledger_head where lab_id = $1 for update';
  let [head] = await manager.query<Omit<ChainHead, 'lab'>[]>(locked, [labId]);
  if (head === undefined) {
    await manager.query(
      'insert into ledger_head (lab_id, id, sequence, hash) values ($1, $1, 0, $2) on conflict do nothing',
      [labId, NO_ENTRY],
    );
    [head] = await manager.query<Omit<ChainHead, 'lab'>[]>(locked, [labId]);
  }
  return head && head.sequence > 0 ? { lab: labId, ...head } : undefined;
}

import { type ChainHead, linkEntry, NO_ENTRY } from '@breakbook/evidence';
import { LedgerEntry } from '../entities/ledger-entry.js';
import { newId, type Rows } from './rows.js';

/** Writes the one entry of a change. Until the transaction ends, every other change of this lab waits here. */
export async function writeEntry(rows: Rows, action: string): Promise<void> {
  const head = await lockedHead(rows);
  const entry = linkEntry(head, {
    lab: rows.labId,
    at: rows.at.toISOString(),
    by: rows.by.personId,
    action,
    ...(rows.reason === undefined ? {} : { reason: rows.reason }),
    rows: rows.noted,
  });
  await rows.manager.insert(LedgerEntry, {
    labId: rows.labId,
    id: newId(),
    sequence: entry.sequence,
    previous: head?.hash ?? NO_ENTRY,
    at: rows.at,
    personId: rows.by.personId,
    action,
    reason: rows.reason ?? null,
    text: entry.text,
    hash: entry.hash,
  });
  await rows.manager.query('update ledger_head set sequence = $2, hash = $3 where lab_id = $1', [
    rows.labId,
    entry.sequence,
    entry.hash,
  ]);
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

import { entryAround } from '@breakbook/evidence';
import { connectionOf, prepared } from './prepared.js';
import { newId, type Rows } from './rows.js';

/**
 * Writes the one entry of a change, into which the database puts number and hash, and commits it. From here until the
 * transaction ends every other change of the lab waits, so nothing is waited for in between: the commit is sent right
 * behind the entry. Where that was refused, PostgreSQL takes the commit for a rollback.
 */
export async function commitWithEntry(rows: Rows, action: string): Promise<void> {
  const id = newId();
  const at = rows.at.toISOString();
  const pieces = entryAround({
    id,
    lab: rows.labId,
    at,
    by: rows.by.personId,
    action,
    ...(rows.reason === undefined ? {} : { reason: rows.reason }),
    rows: rows.noted,
  });
  const said = [rows.labId, id, at, rows.by.personId, action, rows.reason ?? null, ...pieces];
  const client = await connectionOf(rows.manager);
  await Promise.all([
    prepared(client, 'select append_entry($1, $2, $3, $4, $5, $6, $7, $8, $9)', said),
    prepared(client, 'commit', []),
  ]);
}

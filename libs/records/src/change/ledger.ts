import { entryAround } from '@breakbook/evidence';
import pg from 'pg';
import type { QueryRunner } from 'typeorm';
import { newId, type Rows } from './rows.js';

/**
 * Writes the one entry of a change and commits it. The database puts number and hash into the text, and both are one
 * message to it: from here until the transaction ends, every other change of the lab waits.
 */
export async function commitWithEntry(runner: QueryRunner, rows: Rows, action: string): Promise<void> {
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
  const said = [rows.labId, id, at, rows.by.personId, action, rows.reason, ...pieces];
  // Several statements in one message take no parameters.
  const literals = said.map((value) => (value === undefined ? 'null' : pg.escapeLiteral(value)));
  await runner.query(`select append_entry(${literals.join(', ')}); commit`);
}

import type pg from 'pg';
import { DatabaseUnusable } from './database-unusable.js';

/** Without these an acknowledged run can be lost, or a damaged page be read as if it were sound. */
const GUARANTEES = ['fsync', 'full_page_writes', 'synchronous_commit', 'data_checksums'] as const;

/**
 * Refuses a server that could lose what it acknowledged. `synchronous_commit` may be set to anything but off: each
 * other value waits at least until the transaction is on this machine's disk.
 */
export async function requireGuarantees(client: pg.ClientBase, where: string): Promise<void> {
  const { rows } = await client.query<{ name: string; setting: string }>(
    'select name, setting from pg_settings where name = any($1)',
    [GUARANTEES],
  );
  const found = new Map(rows.map(({ name, setting }) => [name, setting]));
  const missing = GUARANTEES.filter((name) => (found.get(name) ?? 'off') === 'off');
  if (missing.length === 0) return;
  throw new DatabaseUnusable(
    `${where} runs with ${missing.join(', ')} off: it could lose a run it has acknowledged, and a wheel cannot be ` +
      `broken twice. Switch ${missing.length === 1 ? 'it' : 'them'} on and start again` +
      (missing.includes('data_checksums') ? ' (data_checksums: pg_checksums --enable, with the server stopped).' : '.'),
  );
}

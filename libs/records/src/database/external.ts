import pg from 'pg';
import { DatabaseUnusable } from './database-unusable.js';
import { requireGuarantees } from './guarantees.js';
import { SERVICE_ROLE } from './service-role.js';

/** 15 is the oldest version whose SQL the migrations and queries keep to. */
const OLDEST = 15;

/** Refuses an external server that is too old, would not keep its word, or would store other text than it is given. */
export async function checkExternal(url: string): Promise<void> {
  const where = `The PostgreSQL server of DATABASE_URL (${withoutPassword(url)})`;
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {}); // A connection cut off shows in the next query; unheard it would end the process.
  try {
    await client.connect();
  } catch (cause) {
    throw new DatabaseUnusable(`${where} cannot be reached: ${(cause as Error).message}`, { cause });
  }
  try {
    const { rows } = await client.query<{ version: string; encoding: string }>(
      "select current_setting('server_version') as version, current_setting('server_encoding') as encoding",
    );
    const { version = '', encoding = '' } = rows[0] ?? {};
    requireVersion(version, where);
    if (encoding !== 'UTF8') {
      throw new DatabaseUnusable(`${where} has the encoding ${encoding}; make the database with encoding UTF8.`);
    }
    await requireGuarantees(client, where);
  } finally {
    await client.end();
  }
}

/** `version` as the server says it, such as "14.12 (Debian 14.12-1)". */
export function requireVersion(version: string, where: string): void {
  if (Number.parseInt(version, 10) >= OLDEST) return;
  throw new DatabaseUnusable(`${where} is version ${version}; Breakbook needs ${OLDEST} or later.`);
}

/** The same server, with the service's role taken on at the start of every session. */
export function asServiceRole(url: string): pg.ClientConfig {
  const address = new URL(url);
  const options = [address.searchParams.get('options'), `-c role=${SERVICE_ROLE}`].filter(Boolean).join(' ');
  address.searchParams.set('options', options);
  return { connectionString: address.href };
}

function withoutPassword(url: string): string {
  try {
    const address = new URL(url);
    address.password = '';
    return address.href;
  } catch {
    return 'which is no address';
  }
}

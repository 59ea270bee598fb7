import type pg from 'pg';
import { connected } from './database.js';

/** What somebody with all rights can do straight in the database: triggers and foreign keys switched off. */
export async function tamper(owner: pg.ClientConfig, sql: string, parameters: unknown[] = []): Promise<number> {
  const client = await connected(owner);
  try {
    await client.query('set session_replication_role = replica');
    return (await client.query(sql, parameters)).rowCount ?? 0;
  } finally {
    await client.end();
  }
}

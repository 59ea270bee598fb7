import type pg from 'pg';
import { type DataSource, type EntityManager } from 'typeorm';

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

/**
 * What `look` answers after somebody with all rights, triggers and foreign keys switched off, has altered rows. It runs
 * in the transaction that altered them, which is rolled back, so that each alteration is found by itself. Undefined where
 * the alterations changed no row, or a check constraint, which holds even then, refused them.
 */
export async function whileTampered<T>(
  owner: DataSource,
  statements: readonly string[],
  look: (manager: EntityManager) => Promise<T>,
): Promise<T | undefined> {
  let answer: T | undefined;
  const rolledBack = new Error('rolled back');
  await owner
    .transaction(async (manager) => {
      await manager.query('set local session_replication_role = replica');
      let altered = 0;
      for (const sql of statements) {
        // Beside the rows TypeORM answers how many they were, but for those put in.
        const [, count = 1] = await manager.query<[unknown, number?]>(sql);
        altered += typeof count === 'number' ? count : 1;
      }
      if (altered > 0) answer = await look(manager);
      throw rolledBack;
    })
    .catch((error: unknown) => {
      const code = (error as { driverError?: { code?: string } }).driverError?.code ?? '';
      if (error !== rolledBack && !REFUSED_BY_CONSTRAINT.includes(code)) throw error;
    });
  return answer;
}

/** Not null, unique and check: class 23 of PostgreSQL's codes, but for foreign keys, which are switched off. */
const REFUSED_BY_CONSTRAINT = ['23502', '23505', '23514'];

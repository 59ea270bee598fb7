import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { DatabaseUnusable } from './database-unusable.js';

interface Migration {
  name: string;
  sql: string;
  sha256: string;
}

/** Any number, but the same for every runner: two that start at once take turns. */
const ADVISORY_LOCK = 8_211_964;

/**
 * Brings a database up to the files of a folder: each .sql file once, in the order of their names, each in a
 * transaction of its own together with the row that records it. Answers the names of those applied now.
 *
 * Refuses a database in which a file was applied that is missing now, or has another content now, or into which a new
 * file would have to be put before one that is applied already: its tables would not be what the files say.
 */
export async function migrate(connection: pg.ClientConfig, folder: string): Promise<string[]> {
  const migrations = readMigrations(folder);
  const client = new pg.Client(connection);
  client.on('error', () => {}); // A connection cut off shows in the next query; unheard it would end the process.
  await client.connect();
  try {
    await client.query('select pg_advisory_lock($1)', [ADVISORY_LOCK]);
    await client.query(`create table if not exists migration (
      name text primary key,
      sha256 text not null,
      at timestamptz(3) not null default now()
    )`);
    const { rows } = await client.query<Omit<Migration, 'sql'>>(
      'select name, sha256 from migration order by name collate "C"',
    );
    const pending = pendingMigrations(migrations, rows);
    for (const migration of pending) await apply(client, migration);
    return pending.map(({ name }) => name);
  } finally {
    await client.end(); // Ends the session, and the lock with it.
  }
}

function readMigrations(folder: string): Migration[] {
  return fs
    .readdirSync(folder)
    .filter((name) => name.endsWith('.sql'))
    .sort()
    .map((name) => {
      const sql = fs.readFileSync(path.join(folder, name), 'utf8');
      return { name, sql, sha256: createHash('sha256').update(sql).digest('hex') };
    });
}

function pendingMigrations(migrations: Migration[], applied: Omit<Migration, 'sql'>[]): Migration[] {
  const byName = new Map(migrations.map((migration) => [migration.name, migration]));
  for (const { name, sha256 } of applied) {
    const now = byName.get(name);
    if (!now) {
      throw new DatabaseUnusable(
        `The migration ${name} was applied to this database, but its file is missing. This database was made by ` +
          'another, probably later, release of Breakbook: start that one.',
      );
    }
    if (now.sha256 !== sha256) {
      throw new DatabaseUnusable(
        `The migration ${name} was changed after it was applied to this database. Put the file back as it was, and ` +
          'write the change as a new migration.',
      );
    }
    byName.delete(name);
  }
  const pending = [...byName.values()];
  const last = applied.at(-1);
  const early = pending.find(({ name }) => last !== undefined && name < last.name);
  if (early) {
    throw new DatabaseUnusable(
      `The migration ${early.name} is new, but comes by its name before ${last?.name}, which is applied already. ` +
        'Give it a name that comes after.',
    );
  }
  return pending;
}

async function apply(client: pg.Client, { name, sql, sha256 }: Migration): Promise<void> {
  if (/^\s*(begin|commit|rollback|start\s+transaction)\s*;/im.test(sql)) {
    throw new DatabaseUnusable(
      `The migration ${name} begins or ends a transaction itself; each file runs in one already.`,
    );
  }
  await client.query('begin');
  try {
    await client.query(sql);
    await client.query('insert into migration (name, sha256) values ($1, $2)', [name, sha256]);
    await client.query('commit');
  } catch (error) {
    await client.query('rollback');
    const { message, position } = error as pg.DatabaseError;
    const line = position === undefined ? '' : `, line ${sql.slice(0, Number(position)).split('\n').length}`;
    throw new DatabaseUnusable(`The migration ${name} failed${line}, and left nothing behind: ${message}`, {
      cause: error,
    });
  }
}

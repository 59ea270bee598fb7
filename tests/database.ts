import { randomUUID } from 'node:crypto';
import { openDataSource, Records, SERVICE_ROLE } from '@breakbook/records';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import { inject } from 'vitest';

/** A database of its own for one test file, migrated and empty. */
export interface TestDatabase {
  /** Connections as the owner of the tables, who is a superuser here: for looking, and for tampering. */
  owner: pg.ClientConfig;
  /** As the service connects. */
  service: pg.ClientConfig;
  dataSource: DataSource;
  records: Records;
  close(): Promise<void>;
}

/** Call it in beforeAll, and `close` in afterAll. */
export async function testDatabase(poolSize = 10): Promise<TestDatabase> {
  const server = await askForServer();
  const owner = { ...server, database: `test_${randomUUID().replaceAll('-', '')}` };
  await queryAs(server, `create database ${owner.database} template ${server.database} strategy wal_log`, 'postgres');

  const service = { ...owner, user: SERVICE_ROLE };
  const dataSource = await openDataSource(service, poolSize);
  const close = async () => {
    await dataSource.destroy();
    await queryAs(server, `drop database ${owner.database} with (force)`, 'postgres');
  };
  return { owner, service, dataSource, records: new Records(dataSource), close };
}

/** The server of this test run; its database is the template. */
export async function askForServer(): Promise<Required<Pick<pg.ClientConfig, 'host' | 'port' | 'user' | 'database'>>> {
  const answer = await fetch(inject('databaseDesk'));
  if (!answer.ok) throw new Error(await answer.text());
  return (await answer.json()) as Awaited<ReturnType<typeof askForServer>>;
}

/** A connection of its own. */
export async function connected(connection: pg.ClientConfig): Promise<pg.Client> {
  const client = new pg.Client(connection);
  client.on('error', () => {}); // A server that is killed shows in the next query; unheard it would fail whatever test runs.
  await client.connect();
  return client;
}

/** One query on a connection of its own. */
export async function queryAs<T extends pg.QueryResultRow>(
  connection: pg.ClientConfig,
  sql: string,
  database = connection.database,
): Promise<T[]> {
  const client = await connected({ ...connection, database });
  try {
    return (await client.query<T>(sql)).rows;
  } finally {
    await client.end();
  }
}

import { Refusal } from '@breakbook/lab';
import { openDataSource } from '@breakbook/records';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs, type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { databaseRefusal } from './database-away.js';

const errorOf = (work: Promise<unknown>) => work.then(() => undefined).catch((error: unknown) => error);

describe('databaseRefusal', () => {
  let database: TestDatabase;
  beforeAll(async () => {
    database = await testDatabase();
  });
  afterAll(() => database.close());

  it('knows a server that is not there', async () => {
    const nowhere = { host: '/nowhere', port: 5432, user: 'nobody', database: 'none' };
    expect(databaseRefusal(await errorOf(new pg.Client(nowhere).connect()))?.code).toBe('service.unavailable');
    expect(databaseRefusal(await errorOf(openDataSource(nowhere)))?.code).toBe('service.unavailable');
  });

  it('knows a connection that was cut off, in a change or after it', async () => {
    const errors: unknown[] = [];
    const outcome = await errorOf(
      database.dataSource.transaction(async (manager) => {
        const [{ pid }] = await manager.query<[{ pid: number }]>('select pg_backend_pid() as pid');
        await queryAs(database.owner, `select pg_terminate_backend(${pid})`);
        for (let n = 0; n < 2; n++) {
          errors.push(await errorOf(manager.query('select 1')));
          await new Promise((resolve) => setTimeout(resolve, 50));
        }
        throw errors[0];
      }),
    );
    for (const error of [...errors, outcome]) expect(databaseRefusal(error)?.code).toBe('service.unavailable');
  });

  it('knows a full disk, by the code of PostgreSQL and by that of the system', () => {
    // PostgreSQL 18, appendix A: 53100 disk_full; errno(3): ENOSPC, EDQUOT.
    for (const code of ['53100', 'ENOSPC', 'EDQUOT'])
      expect(databaseRefusal(Object.assign(new Error('full'), { code }))?.code).toBe('storage.full');
  });

  it('says nothing of an error that is ours', async () => {
    expect(databaseRefusal(await errorOf(database.dataSource.query('select nothing_of_the_kind')))).toBeUndefined();
    expect(databaseRefusal(new Error('ours'))).toBeUndefined();
    expect(databaseRefusal(Object.assign(new Error('a file'), { code: 'ENOENT', syscall: 'open' }))).toBeUndefined();
    expect(databaseRefusal(new Refusal({ code: 'file.empty', detail: 'empty' }))).toBeUndefined();
  });
});

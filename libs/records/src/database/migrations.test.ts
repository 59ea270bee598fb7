import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type pg from 'pg';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { askForServer, queryAs } from '../../../../tests/database.js';
import { migrate } from './migrations.js';

describe('migrate', () => {
  let folder: string;
  let database: pg.ClientConfig;

  beforeEach(async () => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-migrations-'));
    const server = await askForServer();
    database = { ...server, database: `migrations_${randomUUID().replaceAll('-', '')}` };
    await queryAs(server, `create database ${database.database}`, 'postgres');
    write('0001-rims.sql', 'create table rim (n int); insert into rim values (42);');
    write('0002-hubs.sql', 'create table hub (n int);');
  });
  afterEach(async () => {
    await queryAs(database, `drop database ${database.database} with (force)`, 'postgres');
    fs.rmSync(folder, { recursive: true });
  });

  function write(name: string, sql: string) {
    fs.writeFileSync(path.join(folder, name), sql);
  }
  const tables = async () =>
    (
      await queryAs<{ name: string }>(
        database,
        "select tablename as name from pg_tables where schemaname = 'public' order by 1",
      )
    ).map(({ name }) => name);

  it('applies each file once, in the order of names, and nothing when nothing is new', async () => {
    expect(await migrate(database, folder)).toEqual(['0001-rims.sql', '0002-hubs.sql']);
    expect(await migrate(database, folder)).toEqual([]);
    write('0003-spokes.sql', 'alter table rim add spokes int');
    expect(await migrate(database, folder)).toEqual(['0003-spokes.sql']);
    expect(await queryAs(database, 'select n, spokes from rim')).toEqual([{ n: 42, spokes: null }]);
  });

  it('applies each file once though four start at once', async () => {
    const applied = await Promise.all(Array.from({ length: 4 }, () => migrate(database, folder)));
    expect(applied.flat().sort()).toEqual(['0001-rims.sql', '0002-hubs.sql']);
    expect(await queryAs(database, 'select count(*)::int as n from rim')).toEqual([{ n: 1 }]);
  });

  it('leaves nothing of a file that fails, names it and its line, and keeps those before it', async () => {
    write('0003-wrong.sql', 'create table nipple (n int);\n\ncreate table nipple (n int);\nselect 1 fro m rim;');
    await expect(migrate(database, folder)).rejects.toThrow(/0003-wrong\.sql failed, line 4, and left nothing behind/);
    expect(await tables()).toEqual(['hub', 'migration', 'rim']);

    write('0003-wrong.sql', 'create table nipple (n int);\n\ncreate table nipple (n int);');
    await expect(migrate(database, folder)).rejects.toThrow('relation "nipple" already exists');
    expect(await tables()).toEqual(['hub', 'migration', 'rim']);

    write('0003-wrong.sql', 'create table nipple (n int);');
    expect(await migrate(database, folder)).toEqual(['0003-wrong.sql']);
  });

  it('names a file that was changed after it was applied, be it by one blank', async () => {
    await migrate(database, folder);
    write('0001-rims.sql', 'create table rim (n int);  insert into rim values (42);');
    await expect(migrate(database, folder)).rejects.toThrow('0001-rims.sql was changed after it was applied');
  });

  it('names a file that is missing now', async () => {
    await migrate(database, folder);
    fs.rmSync(path.join(folder, '0002-hubs.sql'));
    await expect(migrate(database, folder)).rejects.toThrow(
      '0002-hubs.sql was applied to this database, but its file is missing',
    );
  });

  it('names a new file that would come before one applied already', async () => {
    await migrate(database, folder);
    write('0001-later.sql', 'create table late (n int)');
    await expect(migrate(database, folder)).rejects.toThrow(
      '0001-later.sql is new, but comes by its name before 0002-hubs.sql',
    );
    expect(await tables()).not.toContain('late');
  });

  it('refuses a file that ends the transaction it runs in', async () => {
    write('0003-commits.sql', 'create table nipple (n int);\nCOMMIT;\nselect 1/0;');
    await expect(migrate(database, folder)).rejects.toThrow('0003-commits.sql begins or ends a transaction itself');
    expect(await tables()).not.toContain('nipple');
  });
});

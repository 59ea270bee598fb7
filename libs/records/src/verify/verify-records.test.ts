import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs, type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab, aLot } from '../../../../tests/lab-fixture.js';
import { whileTampered } from '../../../../tests/tamper.js';
import { Reader } from '../change/reader.js';
import type { Actor } from '../change/rows.js';
import { openDataSource } from '../database/data-source.js';
import { SpecimenVersion } from '../entities/index.js';
import { PostgresRawStore } from '../raw/postgres-raw-store.js';
import { prepareRaw, rawFromBytes } from '../raw/raw-source.js';
import { type RecordsBroken, type RecordsHold, verifyRecords } from './verify-records.js';

describe('verifyRecords', () => {
  const store = new PostgresRawStore();
  let database: TestDatabase;
  let owner: DataSource;
  let by: Actor;
  beforeAll(async () => {
    database = await testDatabase();
    owner = await openDataSource(database.owner, 2);
    by = await aLab(database.records);
    const { specimens } = await aLot(database.records, by, ['0417', '0418', '0419']);
    const bytes = await prepareRaw(rawFromBytes(Buffer.from('# Breakbook\n')));
    await database.records.change(by, 'bytes kept', (rows) => store.keep(rows, bytes));
    const specimen = specimens[0]?.id ?? '';
    const { content } = await database.records.read(by.labId).latest(SpecimenVersion, specimen);
    await database.records.change(by, 'specimen corrected', 'weighed again', (rows) =>
      rows.addVersion(SpecimenVersion, specimen, { content: { ...content, mass: { value: 410.25, unit: 'g' } } }),
    );
  });
  afterAll(async () => {
    await owner.destroy();
    await database.close();
  });

  const verify = () => verifyRecords(database.records.read(by.labId), store);

  /** What verification says after somebody with all rights has altered rows. */
  async function afterTampering(sql: string): Promise<RecordsHold | RecordsBroken> {
    const answer = await whileTampered(owner, [sql], (manager) => verifyRecords(new Reader(manager, by.labId), store));
    if (answer === undefined) throw new Error(`Nothing was altered by: ${sql}`);
    return answer;
  }

  it('holds for records as they were written, and counts what it looked at', async () => {
    const answer = (await verify()) as RecordsHold;
    expect(answer).toMatchObject({ holds: true, entries: 4, files: 1, head: { sequence: 4 } });
    const named = await queryAs<{ n: number }>(
      database.owner,
      "select sum(jsonb_array_length(split_part(text, E'\\n', 2)::jsonb -> 'rows'))::int as n from ledger_entry",
    );
    expect(answer.rows).toBe(named[0]?.n);
  });

  it('finds each column of each row changed, in every table that has rows, and names the row', async () => {
    const columns = await queryAs<{ table: string; column: string; type: string }>(
      database.owner,
      `select table_name as table, column_name as column, data_type as type from information_schema.columns
       where table_schema = 'public' and table_name not in ('migration', 'short_number', 'ledger_head')`,
    );
    const other: Record<string, (column: string) => string> = {
      uuid: () => "'0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c01'",
      integer: (column) => `"${column}" + 1000`,
      bigint: (column) => `"${column}" + 1`,
      text: (column) => `coalesce("${column}", '') || 'x'`,
      'timestamp with time zone': (column) => `"${column}" + interval '1 millisecond'`,
      jsonb: (column) => `"${column}" || '{"added": 1}'`,
      ARRAY: (column) => `"${column}" || 'x'::text`,
      bytea: (column) => `"${column}" || '\\x00'`,
    };
    // Check constraints hold even for somebody who switches triggers off, so these are altered as far as those let him.
    const within: Record<string, string> = {
      'lab.id': `id = ${other.uuid?.('id')}, lab_id = ${other.uuid?.('id')}`,
      'lab.lab_id': `lab_id = ${other.uuid?.('id')}, id = ${other.uuid?.('id')}`,
      'person.kind': "kind = 'program'",
      'raw_bytes.sha256': "sha256 = repeat('0', 64)",
      'lab_version.version': "version = 2, reason = 'x'",
      'person_version.version': "version = 2, reason = 'x'",
      'specimen_version.version': "version = 3, reason = 'x'",
    };
    const withRows = new Map<string, string>();
    for (const { table } of columns) {
      if (withRows.has(table)) continue;
      const [row] = await owner.query<{ place: string }[]>(`select ctid::text as place from "${table}" limit 1`);
      if (row) withRows.set(table, row.place);
    }
    let altered = 0;
    for (const { table, column, type } of columns) {
      const place = withRows.get(table);
      if (place === undefined) continue;
      const change = within[`${table}.${column}`] ?? `"${column}" = ${other[type]?.(column)}`;
      const answer = await afterTampering(`update "${table}" set ${change} where ctid = '${place}'`);
      expect(answer, `${table}.${column}`).toMatchObject({ holds: false });
      if (table !== 'ledger_entry' && table !== 'raw_chunk') {
        expect(answer, `${table}.${column}`).toMatchObject({ table });
      }
      altered += 1;
    }
    expect(withRows.size).toBeGreaterThanOrEqual(11);
    expect(altered).toBeGreaterThan(70);
  });

  it('finds a row emptied, removed, put in or doubled', async () => {
    const doubled = `insert into specimen (lab_id, id, person_id, at, number, key, lot_id)
      select lab_id, '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c02', person_id, at, 99, 'put-in', lot_id from specimen limit 1`;
    for (const [table, sql, because] of [
      [
        'specimen_version',
        "update specimen_version set content = content - 'mass' where version = 1",
        'is not what entry 2 says',
      ],
      ['specimen_version', "update specimen_version set reason = 'x' where version = 1", 'is not what entry 2 says'],
      ['specimen_version', 'delete from specimen_version where version = 2', 'that entry 4 names is missing'],
      ['specimen', doubled, 'is named by no entry'],
    ] as const) {
      expect(await afterTampering(sql)).toMatchObject({
        holds: false,
        table,
        because: expect.stringContaining(because),
      });
    }
  });

  it('finds a number that JSON cannot hold where one was', async () => {
    // jsonb has no NaN, but holds numbers beyond a double: they read as Infinity.
    const sql = `update specimen_version set content = jsonb_set(content, '{mass,value}', '1e999') where version = 2`;
    expect(await afterTampering(sql)).toMatchObject({ holds: false, table: 'specimen_version' });
  });

  it.each([
    [1, 'delete from ledger_entry where sequence = 1'],
    [2, 'delete from ledger_entry where sequence = 2'],
    [4, 'delete from ledger_entry where sequence = 4'],
    [2, 'update ledger_entry set sequence = 12 where sequence = 2'],
    [3, 'update ledger_entry set sequence = 5 - sequence + 5 where sequence in (3, 4)'],
    [3, 'update ledger_entry set text = (select text from ledger_entry where sequence = 2) where sequence = 3'],
    [4, 'update ledger_head set sequence = 3'],
    [4, "update ledger_head set hash = repeat('0', 64)"],
  ])('finds entries removed first, in the middle and last, moved and doubled: %i, %s', async (sequence, sql) => {
    const answer = (await afterTampering(sql)) as RecordsBroken;
    expect(answer.holds).toBe(false);
    expect([sequence, sequence + 1]).toContain(answer.sequence);
  });

  it('finds kept bytes altered', async () => {
    const answer = await afterTampering("update raw_chunk set bytes = bytes || '\\x20'");
    expect(answer).toMatchObject({ holds: false, table: 'raw_bytes', because: expect.stringContaining('damaged') });
  });

  it('takes changes made meanwhile for no damage', async () => {
    const busy = Promise.all(
      Array.from({ length: 10 }, (_, n) => aLot(database.records, by, [`1${n}`], `lot-${n}`).catch(() => undefined)),
    );
    for (let n = 0; n < 5; n += 1) expect(await verify()).toMatchObject({ holds: true });
    await busy;
    expect(await verify()).toMatchObject({ holds: true });
  });
});

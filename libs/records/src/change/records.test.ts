import { checkChain, parseEntry, type StoredEntry } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { connected, queryAs, type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab, aLot, aPerson } from '../../../../tests/lab-fixture.js';
import {
  EVIDENCE,
  LedgerEntry,
  Person,
  Product,
  ProductVersion,
  Specimen,
  SpecimenVersion,
} from '../entities/index.js';
import type { Actor } from './rows.js';

describe('Records.change', () => {
  let database: TestDatabase;
  let by: Actor;
  beforeAll(async () => {
    database = await testDatabase(40);
    by = await aLab(database.records);
  });
  afterAll(() => database.close());

  function ledgerOf(labId: string): Promise<(StoredEntry & { sequence: number; text: string })[]> {
    return database.dataSource.manager.find(LedgerEntry, { where: { labId }, order: { sequence: 'asc' } });
  }

  it('ends with one entry that says who did what, when and why, and names each row', async () => {
    const lab = await aLab(database.records);
    const product = await database.records.change(lab, 'product defined', 'the new touring rim', async (rows) => {
      const added = await rows.add(Product, { key: 'dunlin-42' });
      await rows.addVersion(ProductVersion, added.id, { content: dunlin('hooked') });
      return added;
    });

    const entries = await ledgerOf(lab.labId);
    expect(entries).toHaveLength(2);
    const entry = parseEntry(entries[1]?.text ?? '');
    expect(entry).toMatchObject({
      lab: lab.labId,
      by: lab.personId,
      sequence: 2,
      action: 'product defined',
      reason: 'the new touring rim',
      at: product.at.toISOString(),
    });
    expect(entry.rows).toMatchObject([
      { table: 'product', id: product.id, after: { key: 'dunlin-42', number: 1 } },
      { table: 'product_version', record: product.id, version: 1, after: { 'content/name': 'Dunlin 42' } },
    ]);
    expect(entry.rows[1]).not.toHaveProperty('before');
  });

  it('says of a correction only what differs, as it was and as it is', async () => {
    const lab = await aLab(database.records);
    const { specimens } = await aLot(database.records, lab, ['0417']);
    const [specimen] = specimens as [Specimen];
    const first = await database.records.read(lab.labId).latest(SpecimenVersion, specimen.id);

    await database.records.change(lab, 'specimen corrected', 'weighed again with the scale zeroed', (rows) =>
      rows.addVersion(SpecimenVersion, specimen.id, { content: { ...first.content, mass: { value: 410, unit: 'g' } } }),
    );

    const entry = parseEntry((await ledgerOf(lab.labId)).at(-1)?.text ?? '');
    expect(entry.rows).toMatchObject([
      {
        version: 2,
        before: { 'content/mass': { value: 412, unit: 'g' } },
        after: { 'content/mass': { value: 410, unit: 'g' } },
      },
    ]);
    expect(Object.keys(entry.rows[0]?.after ?? {})).toEqual(['content/mass']);
    const history = await database.records.read(lab.labId).history(SpecimenVersion, specimen.id);
    expect(history.map(({ version, reason }) => [version, reason])).toEqual([
      [1, null],
      [2, 'weighed again with the scale zeroed'],
    ]);
  });

  it('refuses a correction without reason, and one made on a version that is no longer in force', async () => {
    const lab = await aLab(database.records);
    const [specimen] = (await aLot(database.records, lab, ['0418'])).specimens as [Specimen];
    const { content } = await database.records.read(lab.labId).latest(SpecimenVersion, specimen.id);
    const correct = (reason: string | undefined, follows?: number) =>
      database.records.change(lab, 'specimen corrected', reason, (rows) =>
        rows.addVersion(SpecimenVersion, specimen.id, { content }, follows),
      );

    await expect(correct(undefined)).rejects.toThrow('needs a reason');
    await correct('condition looked at again', 1);
    await expect(correct('condition looked at again', 1)).rejects.toMatchObject({ code: 'version.stale' });
  });

  it('keeps nothing, not even a short number, when the work fails', async () => {
    const before = await ledgerOf(by.labId);
    await expect(
      database.records.change(by, 'lot received', async (rows) => {
        await rows.add(Product, { key: 'never-kept' });
        throw new Error('the rig caught fire');
      }),
    ).rejects.toThrow('the rig caught fire');
    expect(await ledgerOf(by.labId)).toHaveLength(before.length);
    const kept = await database.records.change(by, 'product defined', (rows) => rows.add(Product, { key: 'kept' }));
    expect(kept.number).toBe(1);
  });

  it('refuses a change that adds nothing, and rows used after their change has ended', async () => {
    await expect(database.records.change(by, 'nothing done', async () => {})).rejects.toThrow('added no row');
    let late: Promise<unknown> | undefined;
    await database.records.change(by, 'product defined', async (rows) => {
      await rows.add(Product, { key: 'in-time' });
      late = new Promise((resolve) => setTimeout(resolve, 50)).then(() => rows.add(Product, { key: 'too-late' }));
      late.catch(() => {}); // Looked at below, after the change.
    });
    await expect(late).rejects.toThrow('has ended');
  });

  it('refuses content that its schema refuses', async () => {
    await expect(
      database.records.change(by, 'product defined', async (rows) => {
        const product = await rows.add(Product, { key: 'bad-content' });
        const content = { ...dunlin('hooked'), markedMaximum: { value: 7, unit: 'mm' } };
        await rows.addVersion(ProductVersion, product.id, { content });
      }),
    ).rejects.toThrow('pressure');
  });

  it('says what is taken already', async () => {
    const again = () => database.records.change(by, 'product defined', (rows) => rows.add(Product, { key: 'taken' }));
    await again();
    await expect(again()).rejects.toBeInstanceOf(Refusal);
    await expect(again()).rejects.toMatchObject({
      code: 'state.conflict',
      message: 'There is a product with key "taken" already.',
    });
  });

  it('keeps the ledger without gap or fork under 32 writers at once, and each number unique', async () => {
    const lab = await aLab(database.records);
    const writers = 32;
    const each = 8;
    await Promise.all(
      Array.from({ length: writers }, async (_, writer) => {
        for (let n = 0; n < each; n += 1) {
          await database.records.change(lab, 'product defined', (rows) =>
            rows.add(Product, { key: `rim-${writer}-${n}` }),
          );
        }
      }),
    );

    const entries = await ledgerOf(lab.labId);
    expect(entries.map(({ sequence }) => sequence)).toEqual(
      Array.from({ length: 1 + writers * each }, (_, i) => i + 1),
    );
    expect(checkChain(entries)).toMatchObject({ holds: true });
    const numbers = (await database.records.read(lab.labId).find(Product, {})).map(({ number }) => number);
    expect(new Set(numbers).size).toBe(writers * each);
    expect(Math.max(...numbers)).toBe(writers * each);
  });

  it('lets one of many simultaneous corrections of one version through', async () => {
    const lab = await aLab(database.records);
    const [specimen] = (await aLot(database.records, lab, ['0419'])).specimens as [Specimen];
    const { content } = await database.records.read(lab.labId).latest(SpecimenVersion, specimen.id);
    const outcomes = await Promise.allSettled(
      Array.from({ length: 16 }, () =>
        database.records.change(lab, 'specimen corrected', 'looked at again', (rows) =>
          rows.addVersion(SpecimenVersion, specimen.id, { content }, 1),
        ),
      ),
    );
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    for (const outcome of outcomes) {
      if (outcome.status === 'rejected') expect(outcome.reason).toMatchObject({ code: 'version.stale' });
    }
  });
});

describe('what the database itself refuses the service', () => {
  let database: TestDatabase;
  let by: Actor;
  beforeAll(async () => {
    database = await testDatabase();
    by = await aLab(database.records);
    await aLot(database.records, by, ['0420']);
  });
  afterAll(() => database.close());

  /** Bookkeeping, not evidence: the last number given, the last entry, the migrations, how people sign in, what each has used, the jobs under way, derived traces and packages. */
  const NOT_EVIDENCE = [
    'ledger_head',
    'migration',
    'short_number',
    'credential',
    'session',
    'caller_use',
    'wrong_try',
    'code_generator',
    'recovery_code',
    'passkey',
    'outside_sign_in',
    'answered_upload',
    'job',
    'job_end',
    'stored_trace',
    'trace_block',
    'lot_package_block',
  ];

  it('every table of evidence refuses update, delete and truncate to the service and to the owner', async () => {
    const tables = (
      await queryAs<{ name: string }>(
        database.owner,
        "select tablename as name from pg_tables where schemaname = 'public'",
      )
    )
      .map(({ name }) => name)
      .filter((name) => !NOT_EVIDENCE.includes(name));
    expect(tables.length).toBe(
      EVIDENCE.length + ['ledger_entry', 'ledger_checkpoint', 'raw_chunk', 'withheld_text'].length,
    );

    const [service, owner] = await Promise.all([connected(database.service), connected(database.owner)]);
    for (const table of tables) {
      for (const sql of [
        `update "${table}" set lab_id = lab_id`,
        `delete from "${table}"`,
        `truncate "${table}" cascade`,
      ]) {
        await expect(service.query(sql), sql).rejects.toMatchObject({ code: '42501' });
        await expect(owner.query(sql), sql).rejects.toMatchObject({ code: 'BB001' });
      }
    }
    await Promise.all([service.end(), owner.end()]);
  });

  it('the service owns nothing, and can neither make, alter nor drop a table, nor switch a trigger off', async () => {
    const owned = await queryAs<{ n: string }>(
      database.owner,
      "select count(*) as n from pg_shdepend where deptype = 'o' and refobjid = 'breakbook_service'::regrole",
    );
    expect(owned).toEqual([{ n: '0' }]);
    for (const sql of [
      'create table mine (id int)',
      'alter table specimen disable trigger all',
      'drop table specimen',
      'set session_replication_role = replica',
      'create or replace function refuse_change() returns trigger language plpgsql as $$ begin return new; end $$',
      'set role breakbook',
    ]) {
      await expect(queryAs(database.service, sql), sql).rejects.toMatchObject({ code: '42501' });
    }
  });

  it('refuses to commit a row that no entry of its transaction names', async () => {
    const insert = `insert into product (lab_id, id, person_id, at, number, key)
      values ('${by.labId}', gen_random_uuid(), '${by.personId}', now(), 900, 'slipped-in')`;
    await expect(queryAs(database.service, insert)).rejects.toMatchObject({ code: 'BB002' });

    const other = `'${by.labId}', gen_random_uuid(), '${by.personId}', now()`;
    await expect(
      database.records.change(by, 'product defined', async (rows) => {
        await rows.add(Product, { key: 'named' });
        await rows.manager.query(
          `insert into product (lab_id, id, person_id, at, number, key) values (${other}, 901, 'unnamed')`,
        );
      }),
    ).rejects.toMatchObject({ driverError: { code: 'BB002' } });
    expect(await database.records.read(by.labId).maybe(Product, { key: 'named' })).toBeUndefined();
  });

  it('refuses an entry that does not follow, has another hash, or whose columns say other than its text', async () => {
    const columns = 'lab_id, id, sequence, previous, at, person_id, action, reason, text, hash';
    const copy = (changes: Record<string, string>) =>
      `insert into ledger_entry (${columns}) select ${columns
        .split(', ')
        .map((column) => changes[column] ?? column)
        .join(', ')} from ledger_entry where lab_id = '${by.labId}' and sequence = 2`;
    const alterations: Record<string, string>[] = [
      { id: 'gen_random_uuid()' },
      { sequence: '3' },
      { sequence: '9' },
      { at: "at + interval '1 second'" },
      { action: "'something else'" },
      { reason: "'no reason was given'" },
      { text: "replace(text, 'lot received', 'lot received!')" },
      { hash: "encode(sha256(convert_to(text, 'UTF8')), 'hex')" },
    ];
    for (const changes of alterations) {
      await expect(queryAs(database.service, copy(changes))).rejects.toMatchObject({ code: 'BB004' });
    }
  });

  it('refuses a reference into another lab', async () => {
    const other = await aLab(database.records);
    const [foreign] = await database.records.read(by.labId).find(Specimen, {});
    await expect(
      database.records.change(other, 'specimen described', (rows) =>
        rows.addVersion(SpecimenVersion, foreign?.id ?? '', {
          content: {
            specimen: '0420',
            lot: 'x',
            serial: 's',
            origin: 'suspect',
            receivedAt: '2031-03-03T08:00:00Z',
            condition: 'as new',
          },
        }),
      ),
    ).rejects.toMatchObject({ driverError: { code: '23503' } });
  });
});

describe('Reader', () => {
  let database: TestDatabase;
  let by: Actor;
  beforeAll(async () => {
    database = await testDatabase();
    by = await aLab(database.records);
    await aPerson(database.records, by, 'jorun');
  });
  afterAll(() => database.close());

  it('throws on a missing key instead of answering somebody else', async () => {
    const reader = database.records.read(by.labId);
    await expect(reader.maybe(Person, { key: undefined as unknown as string })).rejects.toThrow(
      'needs a value for key',
    );
    await expect(reader.maybe(Person, { id: null as unknown as string })).rejects.toThrow('needs a value for id');
    await expect(reader.one(Person, undefined as unknown as string)).rejects.toMatchObject({
      code: 'request.not-found',
    });
    await expect(reader.maybe(Person, {})).rejects.toThrow('Several rows');
  });

  it('says the same of an id that is not there, is none, or belongs to another lab', async () => {
    const other = await aLab(database.records);
    const reader = database.records.read(by.labId);
    for (const id of [other.personId, '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c01', '1', "' or true --", '*']) {
      await expect(reader.one(Person, id)).rejects.toMatchObject({ code: 'request.not-found' });
    }
  });

  it('finds a thing by its name, and the version in force of many records at once', async () => {
    const reader = database.records.read(by.labId);
    expect(await reader.named(Person, 'jorun')).toMatchObject({ number: 2 });
    await expect(reader.named(Person, 'nobody')).rejects.toMatchObject({ code: 'request.not-found' });
  });
});

function dunlin(beadStyle: 'hooked' | 'hookless') {
  return {
    product: 'dunlin-42',
    name: 'Dunlin 42',
    description: 'A composite rim for touring bicycles.',
    beadStyle,
    brakeKind: 'rim' as const,
    markedMaximum: { value: 700, unit: 'kPa' },
  };
}

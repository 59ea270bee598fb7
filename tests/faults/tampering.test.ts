import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { MerkleTree } from '@breakbook/evidence';
import {
  type Actor,
  EvidenceDamaged,
  growTree,
  type KeptElsewhere,
  LedgerKeys,
  makeCheckpoint,
  openDataSource,
  PostgresRawStore,
  prepareRaw,
  Reader,
  type RecordsBroken,
  type RecordsHold,
  rawFromBytes,
  readWhole,
  tables,
  verifyRecords,
} from '@breakbook/records';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../database.ts';
import { aLab, aLot, aPerson } from '../lab-fixture.ts';
import { whileTampered } from '../tamper.ts';
import { copied, cutTo, moved, other, writtenAnew } from './tampered-ledger.ts';

/** Of a hundred trials, a thousand random alterations, and two hundred of each kind to the order of entries. */
const TRIALS = Number(process.env.FAULT_TRIALS ?? 4);
const RANDOM = 10 * TRIALS;
const OF_EACH_KIND = 2 * TRIALS;
const PER_TRIAL = 2_000;

const store = new PostgresRawStore();
let database: TestDatabase;
let owner: DataSource;
let folder: string;
let by: Actor;
let files: string[];
let texts: string[];
/** The head of the ledger was signed, and the note kept where the database does not reach. */
let kept: KeptElsewhere;

beforeAll(async () => {
  database = await testDatabase();
  owner = await openDataSource(database.owner, 2);
  by = await aLab(database.records);
  const { specimens } = await aLot(database.records, by, ['0417', '0418', '0419']);
  await aPerson(database.records, by, 'alma');
  files = [];
  for (const size of [1, 200, 1_100_000]) {
    const bytes = await prepareRaw(rawFromBytes(randomBytes(size)));
    files.push((await database.records.change(by, 'bytes kept', (rows) => store.keep(rows, bytes))).id);
  }
  for (const { id } of specimens) {
    const { content } = await reader().latest(tables.SpecimenVersion, id);
    await database.records.change(by, 'specimen corrected', 'weighed again', (rows) =>
      rows.addVersion(tables.SpecimenVersion, id, { content: { ...content, mass: { value: 410.25, unit: 'g' } } }),
    );
  }
  const entries = await reader().manager.find(tables.LedgerEntry, { order: { sequence: 'asc' } });
  texts = entries.map(({ text }) => text);
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-tampering-'));
  const tree = new MerkleTree();
  await growTree(reader(), tree);
  const made = await makeCheckpoint(reader(), tree, new LedgerKeys(path.join(folder, 'keys')).of(by.labId));
  kept = { note: made?.note ?? '', key: made?.key ?? '' };
}, 60_000);
afterAll(async () => {
  await owner?.destroy();
  await database?.close();
  fs.rmSync(folder, { recursive: true });
});

const reader = () => database.records.read(by.labId);

function verified(statements: string[], elsewhere: KeptElsewhere[] = []): Promise<RecordsHold | RecordsBroken> {
  return whileTampered(owner, statements, (manager) =>
    verifyRecords(new Reader(manager, by.labId), store, { elsewhere }),
  ) as Promise<RecordsHold | RecordsBroken>;
}

/** Whole numbers from 0 on and below this. Park and Miller's minimal standard generator (1988). */
let seed = Number(process.env.FAULT_SEED ?? 1 + (Date.now() % (2 ** 31 - 2)));
const SEED = seed;
function draw(below: number): number {
  seed = (seed * 48271) % 2147483647;
  return seed % below;
}

/** The entry that names this row. */
const entryOf = (id: string) => 1 + texts.findIndex((text) => text.includes(`"id":"${id}"`));

describe(`what somebody with all rights changed in the database (seed ${SEED})`, () => {
  it(
    `is found in each of ${RANDOM} random columns of random rows, with the entry that names the row`,
    async () => {
      const columns = await owner.query<{ table: string; column: string; type: string }[]>(
        `select table_name as table, column_name as column, data_type as type from information_schema.columns
         where table_schema = 'public' and table_name in (${[...EVIDENT, 'ledger_entry'].map((one) => `'${one}'`)})`,
      );
      const rows: { table: string; id: string; place: string; sequence?: number }[] = [];
      for (const table of new Set(columns.map((one) => one.table)))
        rows.push(...(await rowsOf(table)).map((row) => ({ table, ...row })));
      let found = 0;
      while (found < RANDOM) {
        const { table, id, place, sequence } = drawn(rows);
        const { column, type } = drawn(columns.filter((one) => one.table === table));
        const another = OTHER[type]?.(`"${column}"`);
        if (!another) throw new Error(`There is no way to change a column of type ${type}.`);
        const answer = await verified([
          `update "${table}" set "${column}" = ${another} where ctid = '${place}' and "${column}" is distinct from ${another}`,
        ]);
        if (!answer) continue; // It came to what was there, or to what a check constraint refuses.
        const what = `${table}.${column} of ${id}: ${JSON.stringify(answer)}`;
        expect(answer.holds, what).toBe(false);
        // Where an entry is moved to another number, its own is missing, or the one after it finds another before it.
        const expected = sequence === undefined ? [entryOf(id)] : [sequence, sequence + 1];
        expect(expected, what).toContain((answer as RecordsBroken).sequence);
        found += 1;
      }
    },
    30_000 + RANDOM * PER_TRIAL,
  );

  it.each<[string, (at: number) => string[]]>([
    ['removed', (at) => [`delete from ledger_entry where sequence = ${at}`]],
    [
      'removed, and the later ones counted anew',
      (at) => [`delete from ledger_entry where sequence = ${at}`, ...moved(`sequence > ${at}`, 'sequence - 1')],
    ],
    ['put in', (at) => [...moved(`sequence >= ${at}`, 'sequence + 1'), copied(1 + draw(texts.length), at)]],
    ['exchanged', (at) => moved(`sequence in (${at}, ${other(texts, at)})`, `${at} + ${other(texts, at)} - sequence`)],
    [
      'moved to the end',
      (at) => moved(`sequence >= ${at}`, `case when sequence = ${at} then ${texts.length} else sequence - 1 end`),
    ],
    [
      'given another number',
      (at) => [`update ledger_entry set sequence = ${texts.length + 1 + draw(1000)} where sequence = ${at}`],
    ],
  ])(
    `finds an entry %s, ${OF_EACH_KIND} times: first, last and anywhere between`,
    async (what, alter) => {
      for (let n = 0; n < OF_EACH_KIND; n += 1) {
        // The last cannot be moved to the end.
        const at = n === 0 ? 1 : n === 1 && what !== 'moved to the end' ? texts.length : 1 + draw(texts.length - 1);
        const answer = (await verified(alter(at))) as RecordsBroken | undefined;
        expect(answer, `${at}`).toMatchObject({ holds: false });
        const first = what === 'exchanged' ? Math.min(at, other(texts, at)) : at;
        expect([first, first + 1], JSON.stringify(answer)).toContain(answer?.sequence);
      }
    },
    30_000 + OF_EACH_KIND * PER_TRIAL,
  );

  it('a tail of 1 to all entries cut off, with its rows and checkpoints: found by the note kept elsewhere', async () => {
    for (let left = texts.length - 1; left >= 0; left -= 1) {
      const cut = cutTo(texts, left);
      if (left > 0) expect(await verified(cut), `${left}`).toMatchObject({ holds: true, entries: left });
      expect(await verified(cut, [kept]), `${left}`).toMatchObject({
        holds: false,
        because: `a checkpoint that was kept elsewhere: the ledger has ${left} entries, and a checkpoint was signed when it had ${texts.length}`,
      });
    }
  }, 120_000);

  it('the ledger written anew from each of its entries on, with right hashes: found by the note kept elsewhere', async () => {
    for (let from = 1; from <= texts.length; from += 1) {
      const anew = writtenAnew(texts, from);
      expect(await verified(anew), `${from}`).toMatchObject({ holds: true, entries: texts.length });
      expect(await verified(anew, [kept]), `${from}`).toMatchObject({
        holds: false,
        because: expect.stringContaining('come to the root'),
      });
    }
  }, 120_000);
});

describe('kept bytes', () => {
  const OF_ID = (id: string) => `where raw_id = '${id}' and position = 0`;
  const anotherOf = (id: string) => drawn(files.filter((one) => one !== id));
  it.each<[string, (id: string) => string[]]>([
    [
      'with a bit turned',
      (id) => {
        const bit = `(${draw(2 ** 30)} % (8 * length(bytes)))`;
        return [`update raw_chunk set bytes = set_bit(bytes, ${bit}, 1 - get_bit(bytes, ${bit})) ${OF_ID(id)}`];
      },
    ],
    [
      'made shorter',
      (id) => [`update raw_chunk set bytes = substr(bytes, 1, ${draw(2 ** 30)} % length(bytes)) ${OF_ID(id)}`],
    ],
    [
      'made longer',
      (id) => [`update raw_chunk set bytes = bytes || '\\x${randomBytes(1 + draw(50)).toString('hex')}' ${OF_ID(id)}`],
    ],
    [
      'exchanged for those of another file',
      (id) => [`update raw_chunk set bytes = (select bytes from raw_chunk ${OF_ID(anotherOf(id))}) ${OF_ID(id)}`],
    ],
    ['removed', (id) => [`delete from raw_chunk ${OF_ID(id)}`]],
  ])(
    `%s are never handed over and found when verified, ${OF_EACH_KIND} times`,
    async (_, alter) => {
      for (let n = 0; n < OF_EACH_KIND; n += 1) {
        const id = drawn(files);
        const looked = await whileTampered(owner, alter(id), async (manager) => ({
          read: await readWhole(store, new Reader(manager, by.labId), id).catch((error: unknown) => error),
          verified: await verifyRecords(new Reader(manager, by.labId), store),
        }));
        expect(looked?.read).toBeInstanceOf(EvidenceDamaged);
        expect(looked?.verified).toMatchObject({ holds: false, table: 'raw_bytes', id });
      }
    },
    30_000 + OF_EACH_KIND * PER_TRIAL,
  );
});

/** Tables of evidence with rows in this lab. */
const EVIDENT = [
  'lab',
  'lab_version',
  'person',
  'person_version',
  'product',
  'lot',
  'specimen',
  'specimen_version',
  'raw_bytes',
];

function rowsOf(table: string): Promise<{ id: string; place: string; sequence?: number }[]> {
  const sequence = table === 'ledger_entry' ? ', sequence' : '';
  return owner.query(`select id, ctid::text as place${sequence} from "${table}"`);
}

function drawn<T>(all: readonly T[]): T {
  return all[draw(all.length)] as T;
}

/** By type of a column: something else than it holds, drawn anew each time. */
const OTHER: Record<string, (column: string) => string> = {
  uuid: () => `'0198c2f0-7a3e-7c11-8d02-${String(draw(10 ** 9)).padStart(12, '0')}'::uuid`,
  integer: (column) => `${column} + ${1 + draw(1000)}`,
  bigint: (column) => `${column} + ${1 + draw(1000)}`,
  text: (column) =>
    `overlay(coalesce(${column}, '') placing chr(${33 + draw(94)}) from ${1 + draw(40)} for ${draw(2)})`,
  'timestamp with time zone': (column) => `${column} + interval '${1 + draw(10 ** 8)} milliseconds'`,
  jsonb: (column) =>
    `jsonb_set(${column}, array[(select name from jsonb_object_keys(${column}) name order by name offset ${draw(6)} % (select count(*) from jsonb_object_keys(${column})) limit 1)], '${draw(1000)}')`,
  ARRAY: (column) => `array_append(${column}, '${draw(1000)}')`,
};

import { generateKeyPairSync } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { formatEntry, linkEntry, MerkleTree, openCheckpoint, parseEntry } from '@breakbook/evidence';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { connected, type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab, aLot } from '../../../../tests/lab-fixture.js';
import { tamper } from '../../../../tests/tamper.js';
import type { Actor } from '../change/rows.js';
import { LedgerCheckpoint, SpecimenVersion } from '../entities/index.js';
import { PostgresRawStore } from '../raw/postgres-raw-store.js';
import { verifyRecords } from '../verify/verify-records.js';
import { type KeptElsewhere, lastCheckpoint, makeCheckpoint, whyNotBeginning } from './checkpoints.js';
import { LedgerKeys } from './ledger-keys.js';
import { growTree, LedgerTrees } from './ledger-tree.js';

let database: TestDatabase;
let by: Actor;
let folder: string;
let keys: LedgerKeys;
const store = new PostgresRawStore();
const reader = () => database.records.read(by.labId);

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-keys-'));
  keys = new LedgerKeys(path.join(folder, 'keys'));
  database = await testDatabase();
  by = await aLab(database.records);
  const { specimens } = await aLot(database.records, by, ['0417', '0418']);
  const specimen = specimens[0]?.id ?? '';
  for (const mass of [411, 412, 413]) {
    const { content } = await reader().latest(SpecimenVersion, specimen);
    await database.records.change(by, 'specimen corrected', `weighed as ${mass}`, (rows) =>
      rows.addVersion(SpecimenVersion, specimen, { content: { ...content, mass: { value: mass, unit: 'g' } } }),
    );
  }
});
afterAll(async () => {
  await database.close();
  fs.rmSync(folder, { recursive: true });
});

async function theTree(): Promise<MerkleTree> {
  const tree = new MerkleTree();
  await growTree(reader(), tree);
  return tree;
}

describe('a checkpoint of a ledger', () => {
  let kept: KeptElsewhere;

  it('is signed once for one size, and opened with the lab’s key', async () => {
    const tree = await theTree();
    const key = keys.of(by.labId);
    const [first, again] = await Promise.all([
      makeCheckpoint(reader(), tree, key),
      makeCheckpoint(reader(), tree, key),
    ]);
    expect(again).toEqual(first);
    expect(await lastCheckpoint(reader())).toEqual(first);
    expect(openCheckpoint(first?.note ?? '', key)).toEqual({ origin: key.name, size: tree.size, root: tree.root() });
    kept = { note: first?.note ?? '', key: first?.key ?? '' };
    expect(await verifyRecords(reader(), store, { elsewhere: [kept] })).toMatchObject({ holds: true, checkpoints: 2 });
  });

  it('is not changed or removed by the service', async () => {
    const client = await connected(database.service);
    for (const sql of [
      'update ledger_checkpoint set size = 1',
      'delete from ledger_checkpoint',
      'truncate ledger_checkpoint',
    ])
      await expect(client.query(sql)).rejects.toThrow(/permission denied/);
    await client.end();
  });

  it('shows a tail cut off, by one entry to all, to whoever kept it elsewhere', async () => {
    const tree = await theTree();
    const hashes = await hashesOf();
    for (let left = 0; left < tree.size; left++) {
      const cut = new MerkleTree();
      for (const hash of hashes.slice(0, left)) cut.append(hash);
      expect(whyNotBeginning(by.labId, cut, kept)).toBe(
        `the ledger has ${left} entries, and a checkpoint was signed when it had ${tree.size}`,
      );
    }
  });

  it('shows a ledger written anew with right hashes', async () => {
    const tree = await theTree();
    const texts = await textsOf();
    for (let changed = 0; changed < texts.length; changed++) {
      const rewritten = new MerkleTree();
      let head: ReturnType<typeof linkEntry> | undefined;
      for (const [index, text] of texts.entries()) {
        const { sequence: _sequence, previous: _previous, ...content } = parseEntry(text);
        head = linkEntry(head, index === changed ? { ...content, action: 'nothing happened' } : content);
        rewritten.append(head.hash);
      }
      expect(rewritten.size).toBe(tree.size);
      expect(whyNotBeginning(by.labId, rewritten, kept)).toContain('come to the root');
    }
    expect(formatEntry(parseEntry(texts[0] ?? ''))).toBe(texts[0]);
  });

  it('is what finds a tail that was cut off with its rows, its head and the lab’s own checkpoints', async () => {
    const version = `(select id from specimen_version where version = 4)`;
    const sql = [
      `delete from ledger_checkpoint`,
      `delete from specimen_version where id = ${version}`,
      `update ledger_head set (sequence, hash) =
         (select sequence, hash from ledger_entry where sequence = ledger_head.sequence - 1)`,
      `delete from ledger_entry where sequence > (select sequence from ledger_head)`,
    ];
    for (const one of sql) expect(await tamper(database.owner, one)).toBe(1);
    expect(await verifyRecords(reader(), store)).toMatchObject({ holds: true, checkpoints: 0 });
    expect(await verifyRecords(reader(), store, { elsewhere: [kept] })).toMatchObject({
      holds: false,
      because: expect.stringContaining('a checkpoint that was kept elsewhere: the ledger has'),
    });
  });

  it('that was altered where it is stored is found', async () => {
    await makeCheckpoint(reader(), await theTree(), keys.of(by.labId));
    for (const [sql, because] of [
      [`update ledger_checkpoint set size = size - 1`, 'say other than its note'],
      [`update ledger_checkpoint set note = replace(note, E'\\n', E' \\n')`, 'signed note'],
      [`update ledger_checkpoint set key = replace(key, '+', '-')`, 'is no key'],
    ] as const) {
      const before = await reader().manager.find(LedgerCheckpoint);
      expect(await tamper(database.owner, sql)).toBe(1);
      expect(await verifyRecords(reader(), store)).toMatchObject({
        holds: false,
        table: 'ledger_checkpoint',
        because: expect.stringContaining(because),
      });
      const [{ size, note, key } = { size: 0, note: '', key: '' }] = before;
      await tamper(database.owner, 'update ledger_checkpoint set size = $1, note = $2, key = $3', [size, note, key]);
    }
    expect(await verifyRecords(reader(), store)).toMatchObject({ holds: true, checkpoints: 1 });
  });

  const hashesOf = async () =>
    (await reader().manager.query<{ hash: string }[]>('select hash from ledger_entry order by sequence')).map(
      ({ hash }) => hash,
    );
  const textsOf = async () =>
    (await reader().manager.query<{ text: string }[]>('select text from ledger_entry order by sequence')).map(
      ({ text }) => text,
    );
});

describe('the tree of a ledger', () => {
  it('grows by what was written since, each entry once, however many ask', async () => {
    const trees = new LedgerTrees();
    const sizes = await Promise.all(Array.from({ length: 8 }, async () => (await trees.of(reader())).size));
    expect(new Set(sizes)).toEqual(new Set([(await theTree()).size]));
    expect((await trees.of(reader())).root()).toBe((await theTree()).root());
  });
});

describe('the key of a ledger', () => {
  it('is made once, in a file only its owner can read', () => {
    const place = path.join(folder, 'made');
    const [one, other] = [new LedgerKeys(place).of('lab-1'), new LedgerKeys(place).of('lab-1')];
    expect(one.publicKey.equals(other.publicKey)).toBe(true);
    expect(fs.statSync(place).mode & 0o777).toBe(0o700);
    expect(fs.readdirSync(place)).toEqual(['ledger-lab-1.pem']);
    expect(fs.statSync(path.join(place, 'ledger-lab-1.pem')).mode & 0o777).toBe(0o600);
  });

  it.each([
    ['folder', ''],
    ['file', 'ledger-lab-1.pem'],
  ])('is refused from a %s that others can read', (_, name) => {
    const place = fs.mkdtempSync(path.join(folder, 'open-'));
    new LedgerKeys(place).of('lab-1');
    fs.chmodSync(path.join(place, name), 0o755);
    expect(() => new LedgerKeys(place).of('lab-1')).toThrow(/not its owner's alone/);
  });

  it('is Ed25519', () => {
    const place = fs.mkdtempSync(path.join(folder, 'other-'));
    const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
    const pem = String(privateKey.export({ type: 'pkcs8', format: 'pem' }));
    fs.writeFileSync(path.join(place, 'ledger-lab-1.pem'), pem, { mode: 0o600 });
    expect(() => new LedgerKeys(place).of('lab-1')).toThrow(/Ed25519/);
  });
});

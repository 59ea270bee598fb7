import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { formatNoteKey, MerkleTree } from '@breakbook/evidence';
import {
  growTree,
  LedgerKeys,
  makeCheckpoint,
  type OpenDatabase,
  openDatabase,
  openDataSource,
  Records,
  tables,
} from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { aLab, aLot, aPerson } from '../lab-fixture.js';
import { tamper } from '../tamper.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
let folder: string;
let database: OpenDatabase | undefined;
let key: string;
let note: string;
let lab: string;

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-ledger-'));
  fs.chmodSync(folder, 0o755);
  database = await open();
  const dataSource = await openDataSource(database.service, 2);
  const records = new Records(dataSource);
  const by = await aLab(records);
  await aLot(records, by, ['0417', '0418']);
  await aPerson(records, by, 'alma');
  const reader = records.read(by.labId);
  const tree = new MerkleTree();
  await growTree(reader, tree);
  const own = new LedgerKeys(path.join(folder, 'keys')).of(by.labId);
  key = formatNoteKey(own);
  note = path.join(folder, 'kept elsewhere.txt');
  fs.writeFileSync(note, (await makeCheckpoint(reader, tree, own))?.note ?? '');
  lab = (await reader.one(tables.Lab, by.labId)).key;
  await dataSource.destroy();
}, 120_000);
afterAll(async () => {
  await database?.stop();
  fs.rmSync(folder, { recursive: true });
});

const open = () => openDatabase({ dataFolder: path.join(folder, 'data'), migrations: path.join(root, 'migrations') });

function check(...words: string[]) {
  const all = ['apps/cli/bin/breakbook.mjs', 'ledger', 'check', '--data', path.join(folder, 'data'), ...words];
  const { DATABASE_URL: _, ...env } = process.env;
  return spawnSync(process.execPath, all, { cwd: root, encoding: 'utf8', env });
}

describe('breakbook ledger check', () => {
  it('rebuilds everything while Breakbook is running, checkpoints kept elsewhere among it', () => {
    const { status, stdout, stderr } = check('--checkpoint', note, '--key', key);
    expect(stderr).toBe('');
    expect(stdout).toMatch(
      new RegExp(
        `^Lab ${lab}: everything is as it was written: 3 entries, \\d+ rows, 0 kept files, 2 checkpoints. The last entry is 3, [0-9a-f]{64}\\.\\n$`,
      ),
    );
    expect(status).toBe(0);
  });

  it('does the same while it is not, and leaves the database as it was', async () => {
    await database?.stop();
    database = undefined;
    const { status, stdout } = check();
    expect(stdout).toContain('everything is as it was written: 3 entries');
    expect(status).toBe(0);
    database = await open();
  });

  it.each([
    ['a key that is missing', ['--checkpoint', 'NOTE'], /needs the key/],
    ['a checkpoint that is missing', ['--checkpoint', 'nowhere.txt', '--key', 'KEY'], /no checkpoint nowhere.txt/],
    ['a file that is none', ['--checkpoint', 'README.md', '--key', 'KEY'], /README.md is no checkpoint/],
  ])('refuses %s', (_, words, said) => {
    const { status, stderr } = check(...words.map((word) => ({ NOTE: note, KEY: key })[word] ?? word));
    expect(stderr).toMatch(said);
    expect(status).toBe(2);
  });

  it('says where there is no database', () => {
    const { status, stderr } = check('--data', path.join(folder, 'nowhere'));
    expect(stderr).toContain('There is no data folder');
    expect(status).toBe(5);
  });

  it('names the first thing that does not fit', async () => {
    const owner = database?.owner;
    if (!owner) throw new Error('The database is not open.');
    await tamper(
      owner,
      `update specimen_version set content = content || '{"serial":"another"}' where content ->> 'specimen' = '0418'`,
    );
    const { status, stdout } = check();
    expect(stdout).toMatch(
      /^Lab [\w-]+: not as it was written, first at entry 2, table specimen_version, row [0-9a-f-]{36}: a row of specimen_version is not what entry 2 says\.\n$/,
    );
    expect(status).toBe(1);
  });
});

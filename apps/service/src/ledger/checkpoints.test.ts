import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { checkConsistency, checkInclusion, entryHash, openCheckpoint, parseNoteKey } from '@breakbook/evidence';
import { tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import { tamper } from '../../../../tests/tamper.js';
import { CheckpointKeeper } from './checkpoint-keeper.js';

let service: TestService;
let auditor: SignedInCaller;
let operator: SignedInCaller;
let copies: string;
const HOUR = 3_600_000;

beforeAll(async () => {
  copies = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-copies-'));
  const keys = { folder: path.join(copies, 'keys'), checkpointCopies: path.join(copies, 'elsewhere') };
  service = await startTestService({ keys });
  auditor = await service.signIn('auditor', ['audit']);
  operator = await service.signIn('operator', ['record']);
}, 120_000);
afterAll(async () => {
  await service.close();
  fs.rmSync(copies, { recursive: true });
});

/** Makes the ledger longer by so many entries. */
async function write(entries: number): Promise<void> {
  const { records, lab } = service;
  const { content } = await records.read(lab.labId).latest(tables.PersonVersion, lab.personId);
  for (let n = 0; n < entries; n++)
    await records.change(lab, 'person changed', 'for the sake of an entry', (rows) =>
      rows.addVersion(tables.PersonVersion, lab.personId, { content }),
    );
}

describe('a checkpoint, asked for', () => {
  it('is signed by auditors and administrators, and opened with the key that is handed out', async () => {
    expect(await operator.ask('POST', '/api/ledger/checkpoints')).toMatchObject({ status: 403 });
    const { body: head } = await auditor.ask('GET', '/api/ledger/head');
    const made = await auditor.ask('POST', '/api/ledger/checkpoints');
    expect(made).toMatchObject({ status: 200, body: { size: head.sequence } });
    const { body: key } = await operator.ask('GET', '/api/ledger/key');
    expect(openCheckpoint(made.body.note, parseNoteKey(key.key))).toEqual({
      origin: key.origin,
      size: head.sequence,
      root: made.body.root,
    });
    expect((await auditor.ask('POST', '/api/ledger/checkpoints')).body).toEqual(made.body);
    expect((await operator.ask('GET', '/api/ledger/checkpoints')).body.items).toEqual([made.body]);
  });

  it('is written to the place the lab does not control, once', async () => {
    const [file] = fs.readdirSync(path.join(copies, 'elsewhere'));
    const { body } = await operator.ask('GET', '/api/ledger/checkpoints');
    expect(file).toBe(`ledger-${service.lab.labId}-${body.items[0].size}.txt`);
    expect(fs.readFileSync(path.join(copies, 'elsewhere', file ?? ''), 'utf8')).toBe(body.items[0].note);
  });
});

describe('checkpoints at intervals', () => {
  const sizes = async () =>
    (await operator.ask('GET', '/api/ledger/checkpoints')).body.items.map((one: { size: number }) => one.size);

  it('are signed an hour after the last where something was written since, and not else', async () => {
    const keeper = service.app.get(CheckpointKeeper);
    const before = await sizes();
    await keeper.look(Date.now() + HOUR);
    expect(await sizes()).toEqual(before);
    await write(1);
    await keeper.look();
    expect(await sizes()).toEqual(before);
    await keeper.look(Date.now() + HOUR);
    expect(await sizes()).toEqual([...before, before.at(-1) + 1]);
  });

  it('are signed after a hundred entries', async () => {
    const keeper = service.app.get(CheckpointKeeper);
    const before = await sizes();
    await write(99);
    await keeper.look();
    expect(await sizes()).toEqual(before);
    await write(1);
    await keeper.look();
    expect(await sizes()).toEqual([...before, before.at(-1) + 100]);
  });
});

describe('a proof', () => {
  it('shows that an entry is in the ledger, of its size now and of an earlier one', async () => {
    const { body: head } = await operator.ask('GET', '/api/ledger/head');
    for (const [sequence, query] of [
      [1, ''],
      [head.sequence, ''],
      [3, '?size=5'],
      [5, '?size=5'],
    ] as const) {
      const { status, body } = await operator.ask('GET', `/api/ledger/${sequence}/proof${query}`);
      expect(status).toBe(200);
      expect(body.size).toBe(query === '' ? head.sequence : 5);
      expect(entryHash(body.text)).toBe(body.hash);
      expect(body.leaf).toBe(sequence - 1);
      expect(checkInclusion(body, body.proof)).toBe(true);
    }
  });

  it('shows that the ledger only ever grew', async () => {
    const { body } = await operator.ask('GET', '/api/ledger/consistency?from=4');
    expect(checkConsistency(body, body.proof)).toBe(true);
    const short = await operator.ask('GET', '/api/ledger/consistency?from=4&to=6');
    expect(short.body).toMatchObject({ earlier: { size: 4, root: body.earlier.root }, later: { size: 6 } });
    expect(checkConsistency(short.body, short.body.proof)).toBe(true);
  });

  it.each([
    ['/api/ledger/3/proof?size=2', 422, 'query.invalid'],
    ['/api/ledger/3/proof?size=999999', 422, 'query.invalid'],
    ['/api/ledger/3/proof?size=-1', 422, 'query.invalid'],
    ['/api/ledger/999999/proof', 404, 'request.not-found'],
    ['/api/ledger/consistency', 422, 'query.invalid'],
    ['/api/ledger/consistency?from=7&to=6', 422, 'query.invalid'],
    ['/api/ledger/consistency?from=1&to=999999', 422, 'query.invalid'],
  ])('is not made of what is not there: %s', async (at, status, code) => {
    expect(await operator.ask('GET', at)).toMatchObject({ status, body: { code } });
  });
});

describe('a checkpoint that was kept elsewhere', () => {
  it('is compared with the ledger as it is, with a proof for whoever does not take our word', async () => {
    const [kept] = (await operator.ask('GET', '/api/ledger/checkpoints')).body.items;
    const { status, body } = await operator.ask('POST', '/api/ledger/checkpoints/comparison', {
      body: { note: kept.note, key: kept.key },
    });
    expect(status).toBe(200);
    expect(body).toMatchObject({ holds: true, earlier: { size: kept.size, root: kept.root } });
    expect(checkConsistency({ earlier: body.earlier, later: body.now }, body.proof)).toBe(true);
  });

  it.each([
    ['another note', (kept: { note: string; key: string }) => ({ ...kept, note: kept.note.replace('\n', '\n1') })],
    ['no note', ({ key }: { key: string }) => ({ note: 'a sentence', key })],
    [
      'another key',
      ({ note }: { note: string }) => ({
        note,
        key: 'PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW',
      }),
    ],
  ])('is refused as %s', async (_, change) => {
    const [{ note, key }] = (await operator.ask('GET', '/api/ledger/checkpoints')).body.items;
    const body = change({ note, key });
    expect(await operator.ask('POST', '/api/ledger/checkpoints/comparison', { body })).toMatchObject({
      status: 422,
      body: { code: 'body.format', pointer: '/note' },
    });
  });

  it('shows a ledger that was written anew', async () => {
    const [kept] = (await operator.ask('GET', '/api/ledger/checkpoints')).body.items;
    const sql = `update ledger_entry set hash = repeat('a', 64) where sequence = 2`;
    const other = await startTestService({ on: service.database, keys: service.keys });
    try {
      expect(await tamper(service.database.owner, sql)).toBe(1);
      const cookie = await other.signIn('operator', ['record']);
      const { body } = await cookie.ask('POST', '/api/ledger/checkpoints/comparison', {
        body: { note: kept.note, key: kept.key },
      });
      expect(body).toMatchObject({ holds: false, because: expect.stringContaining('come to the root') });
    } finally {
      await other.app.close();
    }
  });
});

import { spawnSync } from 'node:child_process';
import { createPrivateKey, generateKeyPairSync, type KeyObject } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  canonicalJson,
  checkPackage,
  DESCRIPTOR,
  LEDGER,
  type PackageSource,
  parseNoteKey,
  readTable,
  SEAL,
  sealPackage,
  sha256,
} from '@breakbook/evidence';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fromBufferPromise } from 'yauzl';
import { testDatabase } from '../database.js';
import { type SignedInCaller, startTestService, type TestService } from '../service.js';
import { folder as lotFolder } from './lot-folder.fixture.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** Made by ImageMagick 6.9.11: convert -size 5x3 xc:teal PNG24:a.png. */
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=',
  'base64',
);
const FORMULA = '=HYPERLINK("http://127.0.0.1/") at 90\u00b0';

let service: TestService;
let auditor: SignedInCaller;
let lot: string;
let key: string;
let zip: Buffer;
let files: Map<string, Buffer>;
let at: string;

beforeAll(async () => {
  const database = await testDatabase();
  const { bundle, filesOf } = lotFolder('dunlin-42-second-lot');
  lot = bundle.lot.lot;
  await importLot(database.records, new PostgresRawStore(), bundle, filesOf);
  service = await startTestService({ on: database });
  auditor = await service.signIn('auditor', ['audit', 'record']);
  const photo = new URLSearchParams({
    specimen: bundle.specimens[0]?.specimen ?? '',
    caption: FORMULA,
    takenBy: 'auditor',
    device: 'Bench camera 2',
    takenAt: '2026-09-21T09:40:00+02:00',
  });
  const attached = await auditor.ask('POST', `/api/attachments?${photo}`, {
    body: PNG,
    headers: { 'content-type': 'image/png' },
  });
  expect(attached.status, JSON.stringify(attached.body)).toBe(201);
  key = (await auditor.ask('GET', '/api/ledger/key')).body.key;
  zip = await packed();
  files = await unpacked(zip);
  at = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-package-'));
  fs.writeFileSync(path.join(at, 'lot.zip'), zip);
  for (const [name, bytes] of files) {
    fs.mkdirSync(path.join(at, 'whole', path.dirname(name)), { recursive: true });
    fs.writeFileSync(path.join(at, 'whole', name), bytes);
  }
}, 170_000);
afterAll(async () => {
  await service.close();
  fs.rmSync(at, { recursive: true, force: true });
});

async function packed(): Promise<Buffer> {
  const asked = await auditor.ask('POST', `/api/lots/${lot}/packages`);
  expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 202 });
  for (;;) {
    const { body } = await auditor.ask('GET', `/api/jobs/${asked.body.id}`);
    if (body.state === 'done') {
      const response = await auditor.fetch(`/api/packages/${body.package}/zip`);
      expect(response.status).toBe(200);
      expect(response.headers.get('content-disposition')).toMatch(/^attachment; filename="lot-[\w-]+\.zip"$/);
      return Buffer.from(await response.arrayBuffer());
    }
    if (!['waiting', 'running'].includes(body.state)) throw new Error(JSON.stringify(body));
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

async function unpacked(bytes: Buffer): Promise<Map<string, Buffer>> {
  const all = new Map<string, Buffer>();
  const file = await fromBufferPromise(bytes, { lazyEntries: true });
  for await (const entry of file.eachEntry()) {
    const pieces: Buffer[] = [];
    for await (const piece of await file.openReadStreamPromise(entry)) pieces.push(piece);
    all.set(entry.fileName, Buffer.concat(pieces));
  }
  return all;
}

function sourceOf(of: ReadonlyMap<string, Buffer>): PackageSource {
  return {
    paths: [...of.keys()],
    async *read(name) {
      yield of.get(name) ?? Buffer.alloc(0);
    },
  };
}

const check = (of: ReadonlyMap<string, Buffer>) => checkPackage(sourceOf(of), { key: parseNoteKey(key) });

function breakbook(...words: string[]) {
  const all = [path.join(root, 'apps/cli/bin/breakbook.mjs'), ...words];
  return spawnSync(process.execPath, all, { cwd: at, encoding: 'utf8' });
}

/** The package after a change to one file, with every digest and the seal made to fit again, as the lab itself could. */
function resealed(name: string, change: (text: string) => string, signedBy = labKey()): Map<string, Buffer> {
  const altered = new Map(files);
  const bytes = Buffer.from(change(text(name)));
  altered.set(name, bytes);
  const descriptor = JSON.parse(text(DESCRIPTOR));
  const resource = descriptor.resources.find((one: { path: string }) => one.path === name);
  Object.assign(resource, { bytes: bytes.length, hash: `sha256:${sha256(bytes)}` });
  const described = Buffer.from(`${canonicalJson(descriptor)}\n`);
  altered.set(DESCRIPTOR, described);
  altered.set(
    SEAL,
    Buffer.from(sealPackage(sha256(described), { name: parseNoteKey(key).name, privateKey: signedBy })),
  );
  return altered;
}

function labKey(): KeyObject {
  const [name] = fs.readdirSync(service.keys.folder).filter((one) => one.endsWith('.pem'));
  return createPrivateKey(fs.readFileSync(path.join(service.keys.folder, name ?? '')));
}

function text(name: string): string {
  return files.get(name)?.toString('utf8') ?? '';
}

describe('a lot handed out', () => {
  it('holds everything, as it was kept, and says so by itself', async () => {
    const found = await check(files);
    expect(found).toMatchObject({ holds: true, lot });
    const { bundle, filesOf } = lotFolder('dunlin-42-second-lot');
    for (const { run } of bundle.runs)
      for (const { name, bytes } of filesOf(run)) expect(files.get(`lot/${name}`)?.equals(bytes)).toBe(true);
    expect(files.get('photos/photo-1.png')?.equals(PNG)).toBe(true);
    expect(files.get('documents/document-1.pdf')?.subarray(0, 5).toString()).toBe('%PDF-');
    for (const name of ['limits', 'methods', 'plan', 'rigs', 'runs', 'lot', 'product', 'lab'])
      expect(JSON.parse(text(`lot/${name}.json`))).toBeTruthy();
    expect(text('README.txt')).toContain('breakbook check');
  });

  it('is checked by the command line, zip or folder, with no service and no network', () => {
    for (const where of ['lot.zip', 'whole']) {
      const { status, stdout, stderr } = breakbook('check', where, '--key', key);
      expect(stderr).toBe('');
      expect(stdout).toContain(`Lot ${lot}: everything is as it was handed out`);
      expect(stdout).not.toContain('No key was given');
      expect(status).toBe(0);
    }
    const { status, stdout } = breakbook('check', 'whole');
    expect(stdout.replaceAll('\n', ' ')).toContain('shows only that the package fits itself');
    expect(status).toBe(0);
  });

  it('judges and recomputes to the same numbers, to the last bit', () => {
    const again = breakbook('recompute', 'whole/lot', '--against', 'whole/result.json');
    expect(again.stderr).toBe('');
    expect(again.stdout).toContain("8 of 8 runs identical to the last bit; the lot's result is identical.");
    expect(again.status).toBe(0);
  }, 120_000);

  it('leaves one entry of who took it, and records that still hold', async () => {
    const { items } = (await auditor.ask('GET', `/api/lots/${lot}/packages`)).body;
    expect(items).toEqual([
      expect.objectContaining({ number: 1, lot, by: 'auditor', sha256: sha256(zip), bytes: zip.length, kept: true }),
    ]);
    const reader = service.records.read(service.lab.labId);
    expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
  });

  it('is handed to none whose duty it is not', async () => {
    const operator = await service.signIn('operator', ['record']);
    expect((await operator.ask('POST', `/api/lots/${lot}/packages`)).status).toBe(403);
    expect((await operator.ask('GET', '/api/packages/1/zip')).status).toBe(403);
    expect((await auditor.ask('GET', '/api/packages/99/zip')).body).toMatchObject({ code: 'request.not-found' });
    expect((await auditor.ask('POST', '/api/lots/nothing/packages')).body).toMatchObject({ code: 'request.not-found' });
  });

  it('keeps numbers numbers and takes the sting out of text, so that it can still be read back', () => {
    const csv = text('tables/photos.csv');
    expect(csv).toContain(`"'=HYPERLINK(""http://127.0.0.1/"") at 90\u00b0"`);
    expect(readTable(csv)[0]).toMatchObject({ caption: FORMULA, number: '1' });
    const [first] = readTable(text('tables/verdicts.csv'));
    expect(Number(first?.margin)).not.toBeNaN();
    for (const [name, bytes] of files)
      if (name.startsWith('tables/'))
        for (const cell of bytes.toString('utf8').split(/,|\r\n/))
          expect(cell.replace(/^"/, ''), name).not.toMatch(/^[=+@\t\r]|^-(?![\d.])/);
  });
});

describe('a package that was altered', () => {
  it('is found, whichever file it is: a bit turned, a byte cut off, a byte added, the file gone', async () => {
    for (const [name, bytes] of files) {
      const turned = Buffer.from(bytes);
      const middle = Math.floor(bytes.length / 2);
      turned[middle] = (turned[middle] ?? 0) ^ 1;
      const altered = [turned, bytes.subarray(0, -1), Buffer.concat([bytes, Buffer.from(' ')])];
      for (const one of altered) {
        const found = await check(new Map([...files, [name, one]]));
        expect(found, name).toMatchObject({ holds: false, path: name });
      }
      const without = new Map(files);
      without.delete(name);
      expect(await check(without), name).toMatchObject({ holds: false, path: name, because: expect.any(String) });
    }
    expect(files.size).toBeGreaterThan(30);
  }, 120_000);

  it('is found where a file was put in, or two were exchanged', async () => {
    const added = new Map([...files, ['lot/notes.txt', Buffer.from('all well')]]);
    expect(await check(added)).toMatchObject({ holds: false, path: 'lot/notes.txt' });
    const [one = '', other = ''] = [...files.keys()].filter((name) => /^lot\/runs\//.test(name));
    const exchanged = new Map(files);
    exchanged.set(one, files.get(other) ?? Buffer.alloc(0)).set(other, files.get(one) ?? Buffer.alloc(0));
    expect(await check(exchanged)).toMatchObject({ holds: false });
  });

  it('is found where somebody sealed it anew with a key of their own', async () => {
    const { privateKey } = generateKeyPairSync('ed25519');
    const altered = resealed('README.txt', (was) => was, privateKey);
    expect(await check(altered)).toMatchObject({ holds: false, path: SEAL });
  });

  it.each([
    ['a specimen', 'lot/lot.json', (was: string) => was.replace(/"condition":"[^"]*"/, '"condition":"better"')],
    ['a limit', 'lot/limits.json', (was: string) => was.replace(/"value":\d+/, '"value":1')],
    ['a moment of a run', 'lot/runs.json', (was: string) => was.replace(/"startedAt":"20/, '"startedAt":"19')],
    ['what a calibration found', 'lot/rigs.json', (was: string) => was.replace(/"gain":[\d.]+/, '"gain":2')],
    ['a row', LEDGER.rows, (was: string) => was.replace(/"condition":"[^"]*"/, '"condition":"better"')],
    ['a row that is left out', LEDGER.rows, (was: string) => withoutLine(was, '"table":"specimen_version"')],
    ['an entry', LEDGER.entries, (was: string) => was.replace(/lot evaluated/, 'lot devaluated')],
    ['an entry that is left out', LEDGER.entries, (was: string) => withoutLine(was, 'lot evaluated')],
    ['a proof', LEDGER.entries, (was: string) => was.replace(/"proof":\["[0-9a-f]/, '"proof":["x')],
    ['the hash of an entry', LEDGER.entries, (was: string) => was.replace(/"hash":"..../, '"hash":"0000')],
    ['the checkpoint', LEDGER.checkpoint, (was: string) => was.replace(/\n\d+\n/, '\n7\n')],
    ['a table', 'tables/results.csv', (was: string) => was.replace(/\r\n.*\r\n/, '\r\nx,y\r\n')],
    ['a number in a table', 'tables/results.csv', (was: string) => was.replace(/exact,[\d.]+/, 'exact,high')],
    ['a raw file', 'lot/runs.json', (was: string) => was.replace(/"sha256":"..../, '"sha256":"0000')],
    ['a photo', 'photos/photo-1.png', (was: string) => `${was} `],
  ])('is found where the lab itself altered %s and sealed it anew', async (_, name, change) => {
    const altered = resealed(name, change);
    expect(altered.get(name)?.equals(files.get(name) ?? Buffer.alloc(0)), 'the change changes nothing').toBe(false);
    const found = await check(altered);
    expect(found.holds).toBe(false);
    // What rests on an entry or row that is gone is found there, or at what it held up.
    if (!found.holds && !_.includes('left out')) expect(found.path).toBe(name);
  });

  function withoutLine(was: string, within: string): string {
    const lines = was.split('\n');
    const gone = lines.findIndex((line) => line.includes(within));
    expect(gone).toBeGreaterThanOrEqual(0);
    return lines.filter((_, index) => index !== gone).join('\n');
  }

  it('ends the command line with 1, naming the file; what is no package with 2', () => {
    fs.appendFileSync(path.join(at, 'whole', 'lot/plan.json'), ' ');
    const altered = breakbook('check', 'whole', '--key', key);
    expect(altered.stdout).toContain('Not as it was handed out, first at lot/plan.json');
    expect(altered.status).toBe(1);
    fs.writeFileSync(path.join(at, 'cut.zip'), zip.subarray(0, -30));
    for (const [where, said] of [
      ['cut.zip', 'cannot be read as a zip'],
      ['nowhere', 'There is no folder or file'],
      ['.', 'no datapackage.json'],
    ] as const) {
      const { status, stderr } = breakbook('check', where);
      expect(stderr.replaceAll('\n', ' ')).toContain(said);
      expect(status).toBe(2);
    }
    const key1 = breakbook('check', 'lot.zip', '--key', 'nonsense');
    expect(key1.status).toBe(2);
  });
});

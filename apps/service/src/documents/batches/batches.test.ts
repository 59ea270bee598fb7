import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, expect, it } from 'vitest';
import yauzl from 'yauzl';
import { keepKeyedLot, keyedLot, VALID } from '../../../../../tests/keyed-lot.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../../tests/service.js';
import { fileOf, jobDone } from '../../../../../tests/signed-report.js';
import { USUAL_QUOTAS } from '../../quotas/quotas.js';

const LOT = 'BATCHED';
const RUNS = 5;
/** Specimens that nobody has run yet. */
const SPARE = 7;
/** One for each of the batches below, whatever they come to. */
const BATCHES = 4;

let service: TestService;
let reviewer: SignedInCaller;
let auditor: SignedInCaller;

beforeAll(async () => {
  service = await startTestService({ quotas: { ...USUAL_QUOTAS, exports: BATCHES } });
  await keepKeyedLot(
    service,
    keyedLot(
      Array.from({ length: RUNS }, (_, n) => ({ kPa: 1900 + 7 * n, validity: VALID })),
      { lot: LOT, spare: SPARE },
    ),
  );
  reviewer = await service.signIn('a-grossmann');
  auditor = await service.signIn('auditor', ['audit']);
}, 120_000);
afterAll(() => service.close());

async function ask(kind: string, more: object = {}): Promise<Answer> {
  await reviewer.again();
  return reviewer.ask('POST', `/api/lots/${LOT}/document-batches`, { body: { kind, ...more } });
}
async function goOn(n: number): Promise<Answer> {
  await reviewer.again();
  return reviewer.ask('POST', `/api/document-batches/${n}/resumption`);
}
const batch = async (n: number): Promise<Answer['body']> =>
  (await reviewer.ask('GET', `/api/document-batches/${n}`)).body;
const documents = async (kind: string): Promise<Answer['body'][]> =>
  (await reviewer.ask('GET', '/api/documents?limit=200')).body.items.filter(
    (one: { kind: string }) => one.kind === kind,
  );

/** Waits until a job has made so many documents; answers the number of its batch. */
async function madeOf(job: string, least: number): Promise<number> {
  for (;;) {
    const { status, body } = await reviewer.ask('GET', `/api/jobs/${job}`);
    const { batch: number, state } = body;
    if (status !== 200) throw new Error(`${status} ${JSON.stringify(body)}`);
    if (number !== undefined && (await batch(number)).made >= least) return number;
    if (state === 'failed') throw new Error(`The job has failed with fewer than ${least} documents.`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

async function filesIn(zip: Uint8Array): Promise<Map<string, string>> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-batch-'));
  try {
    const at = path.join(folder, 'batch.zip');
    fs.writeFileSync(at, zip);
    const found = new Map<string, string>();
    const opened = await yauzl.openPromise(at, { autoClose: false });
    for await (const entry of opened.eachEntry()) {
      const hash = createHash('sha256');
      for await (const piece of await opened.openReadStreamPromise(entry)) hash.update(piece as Buffer);
      found.set(entry.fileName, hash.digest('hex'));
    }
    opened.close();
    return found;
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}

it('makes a run sheet of every run, told one by one, and hands them out as one zip', async () => {
  const asked = await ask('run sheet');
  const events = await (await reviewer.fetch(`/api/jobs/${asked.body.id}/events`)).text();
  expect(events).toMatch(new RegExp(`run sheet \\d of ${RUNS}`));
  const { batch: number } = await jobDone(reviewer, asked);
  const whole = await batch(number);
  expect(whole).toMatchObject({ kind: 'run sheet', lot: LOT, made: RUNS, of: RUNS, state: 'complete', job: null });
  const sheets = await documents('run sheet');
  expect(sheets.map(({ number: n }) => n).sort((a, b) => a - b)).toEqual(whole.documents);
  expect(new Set(sheets.map(({ run }) => run)).size).toBe(RUNS);

  const zip = new Uint8Array(await (await auditor.fetch(`/api/document-batches/${number}/zip`)).arrayBuffer());
  // A lot's own list is not flooded by them.
  const { items } = (await reviewer.ask('GET', `/api/documents?lot=${LOT}&limit=200`)).body;
  expect(items.filter((one: { kind: string }) => one.kind === 'run sheet')).toEqual([]);
  const files = await filesIn(zip);
  expect([...files.keys()]).toEqual(Array.from({ length: RUNS }, (_, n) => `RS-${LOT}-r${n + 1}-1.pdf`));
  expect([...files.values()].sort()).toEqual(sheets.map(({ sha256 }) => sha256).sort());
  const first = createHash('sha256')
    .update(await fileOf(reviewer, whole.documents[0]))
    .digest('hex');
  expect(files.get(`RS-${LOT}-r1-1.pdf`)).toBe(first);
}, 180_000);

it('is given up midway and gone on with: what is made stays, and none is made twice', async () => {
  const { id } = (await ask('specimen record')).body;
  const number = await madeOf(id, 2);
  expect(await goOn(number)).toMatchObject({
    status: 409,
    body: { detail: expect.stringContaining('A job is at batch') },
  });
  expect(await reviewer.ask('POST', `/api/jobs/${id}/cancel`)).toMatchObject({ body: { state: 'cancelled' } });
  const given = await batch(number);
  expect(given.state).toBe('stopped');
  expect(given.made).toBeGreaterThanOrEqual(2);
  expect(given.made).toBeLessThan(given.of);
  expect((await reviewer.ask('GET', `/api/jobs/${id}`)).body).toMatchObject({ state: 'cancelled', batch: number });

  const after = await jobDone(reviewer, await goOn(number));
  expect(after).toMatchObject({ state: 'done', batch: number });
  const whole = await batch(number);
  expect(whole).toMatchObject({ made: RUNS + SPARE, state: 'complete' });
  expect(whole.documents.slice(0, given.made)).toEqual(given.documents);
  const records = await documents('specimen record');
  expect(records).toHaveLength(RUNS + SPARE);
  expect(new Set(records.map(({ specimen }) => specimen)).size).toBe(RUNS + SPARE);
  expect(await goOn(number)).toMatchObject({
    status: 409,
    body: { detail: expect.stringContaining(`All ${RUNS + SPARE} documents`) },
  });
}, 180_000);

it('gives way to whatever else is asked for, between its documents', async () => {
  const { id } = (await ask('run sheet')).body;
  const number = await madeOf(id, 1);
  await jobDone(reviewer, await reviewer.ask('POST', `/api/lots/${LOT}/evaluations`));
  expect((await batch(number)).made).toBeLessThan(RUNS);
  await madeOf(id, RUNS);
  expect(await documents('run sheet')).toHaveLength(2 * RUNS);
}, 180_000);

it('puts all labels on as few sheets as they need, and counts as one export however many documents it has', async () => {
  const { batch: number } = await jobDone(reviewer, await ask('label sheet', { grid: 'A4, 10 of 105 × 57 mm' }));
  // 12 specimens on sheets of 10.
  expect(await batch(number)).toMatchObject({ made: 2, of: 2 });
  const [first, second] = await Promise.all(
    (await batch(number)).documents.map(
      async (n: number) => (await reviewer.ask('GET', `/api/documents/${n}`)).body.content.labels,
    ),
  );
  expect([first.length, second.length]).toEqual([10, 2]);
  expect(await ask('run sheet')).toMatchObject({ status: 429, body: { code: 'rate.limited' } });
  const { items } = (await reviewer.ask('GET', `/api/lots/${LOT}/document-batches`)).body;
  expect(items.map((one: { kind: string }) => one.kind)).toEqual([
    'label sheet',
    'run sheet',
    'specimen record',
    'run sheet',
  ]);
  expect(await auditor.ask('POST', `/api/lots/${LOT}/document-batches`, { body: { kind: 'run sheet' } })).toMatchObject(
    { status: 403 },
  );
}, 180_000);

it('leaves a ledger that holds, with an entry for each document', async () => {
  expect(await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore())).toMatchObject({
    holds: true,
  });
}, 180_000);

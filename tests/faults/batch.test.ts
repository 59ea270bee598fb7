import fs from 'node:fs';
import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { importLot, labOf } from '@breakbook/service';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../database.ts';
import { keyedLot, VALID } from '../keyed-lot.ts';
import { aCaller, type SignedInCaller, signInAt } from '../service.ts';
import { KilledService } from './killed-service.ts';

const LOT = 'KILLED';
/** `BATCH_RUNS=300 npx vitest run tests/faults/batch.test.ts` measures a long batch that nobody kills. */
const MEASURED = process.env.BATCH_RUNS !== undefined;
const RUNS = Number(process.env.BATCH_RUNS ?? 8);
/** After so many documents the service is killed; `npm run faults` kills it more often. */
const KILLS = MEASURED ? [] : process.env.FAULT_TRIALS === undefined ? [2] : [1, 2, 4, 6];

let database: TestDatabase;
let service: KilledService;
let reviewer: SignedInCaller;
let labId: string;

beforeAll(async () => {
  database = await testDatabase();
  const runs = Array.from({ length: RUNS }, (_, n) => ({ kPa: 1900 + n, validity: VALID }));
  const keyed = keyedLot(runs, { lot: LOT });
  const bundle = { ...keyed, lot: { ...keyed.lot, size: Math.max(RUNS, keyed.lot.size) } };
  await importLot(database.records, new PostgresRawStore(), bundle, () => []);
  const lab = await labOf(database.records, bundle);
  labId = lab.labId;
  service = await KilledService.start(database.service);
  const house = {
    url: service.url,
    database,
    keys: { folder: service.keys },
    lab,
    callerWith: (headers: Record<string, string>) => aCaller(service.url, headers),
  };
  reviewer = await signInAt(house, 'reviewer', ['review', 'issue']);
}, 180_000);
afterAll(async () => {
  await service?.kill();
  await database.close();
});

const look = async (at: string) => (await reviewer.ask('GET', at)).body;

async function madeOf(job: string): Promise<{ made: number; state: string }> {
  const { batch, state } = await look(`/api/jobs/${job}`);
  return { made: batch === undefined ? 0 : (await look(`/api/document-batches/${batch}`)).made, state };
}

it(`a batch goes on by itself after kill -9, ${KILLS.length} in all, and makes every document once`, async () => {
  const began = performance.now();
  const { body } = await reviewer.ask('POST', `/api/lots/${LOT}/document-batches`, { body: { kind: 'run sheet' } });
  const kept: number[][] = [];
  for (const least of KILLS) {
    while ((await madeOf(body.id)).made < least) await new Promise((resolve) => setTimeout(resolve, 10));
    await service.kill();
    service.begin();
    await service.healthy();
    const { batch } = await look(`/api/jobs/${body.id}`);
    kept.push((await look(`/api/document-batches/${batch}`)).documents);
  }
  const waits = await untilDone(body.id);
  if (MEASURED) console.log(figures((performance.now() - began) / 1000, waits));
  const { batch } = await look(`/api/jobs/${body.id}`);
  const whole = await look(`/api/document-batches/${batch}`);
  expect(whole).toMatchObject({ made: RUNS, of: RUNS, state: 'complete' });
  // What was there after each kill is there still, at its place.
  for (const documents of kept) {
    expect(documents.length).toBeLessThan(RUNS);
    expect(whole.documents.slice(0, documents.length)).toEqual(documents);
  }
  const reader = database.records.read(labId);
  const subjects = await reader.find(tables.DocumentSubject, {});
  expect(subjects).toHaveLength(RUNS);
  expect(new Set(subjects.map(({ runId }) => runId)).size).toBe(RUNS);
  expect(await reader.find(tables.DocumentBatch, {})).toHaveLength(1);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
}, 1_200_000);

/** Looks at the job and at the lot's runs until the job has ended; answers how long each request took, in ms. */
async function untilDone(job: string): Promise<number[]> {
  const waits: number[] = [];
  while ((await madeOf(job)).state !== 'done') {
    const asked = performance.now();
    await look(`/api/runs/${LOT}-r1`);
    waits.push(performance.now() - asked);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return waits.sort((one, other) => one - other);
}

function figures(seconds: number, waits: readonly number[]): string {
  // proc(5): the most memory the process has had in hand.
  const peak = /VmHWM:\s*(\d+) kB/.exec(fs.readFileSync(`/proc/${service.pid}/status`, 'utf8'))?.[1];
  const at = (share: number) => Math.round(waits[Math.floor(share * (waits.length - 1))] ?? Number.NaN);
  return `${RUNS} run sheets in ${seconds.toFixed(0)} s, ${(RUNS / seconds).toFixed(1)} a second; ${waits.length} requests meanwhile took ${at(0.5)} ms (median), ${at(0.99)} ms (99 of 100), ${at(1)} ms (longest); the service had ${Math.round(Number(peak) / 1024)} MiB at most`;
}

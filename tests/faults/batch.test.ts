import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { importLot, labOf } from '@breakbook/service';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../database.ts';
import { keyedLot, VALID } from '../keyed-lot.ts';
import { aCaller, type SignedInCaller, signInAt } from '../service.ts';
import { KilledService } from './killed-service.ts';

const LOT = 'KILLED';
const RUNS = 8;
/** After so many documents the service is killed; `npm run faults` kills it more often. */
const KILLS = process.env.FAULT_TRIALS === undefined ? [2] : [1, 2, 4, 6];

let database: TestDatabase;
let service: KilledService;
let reviewer: SignedInCaller;
let labId: string;

beforeAll(async () => {
  database = await testDatabase();
  const bundle = keyedLot(
    Array.from({ length: RUNS }, (_, n) => ({ kPa: 1900 + 7 * n, validity: VALID })),
    { lot: LOT },
  );
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
}, 240_000);
afterAll(async () => {
  await service?.kill();
  await database.close();
});

const look = async (at: string) => (await reviewer.ask('GET', at)).body;

async function madeOf(job: string): Promise<{ made: number; state: string }> {
  const { batch, state } = await look(`/api/jobs/${job}`);
  return { made: batch === undefined ? 0 : (await look(`/api/document-batches/${batch}`)).made, state };
}

it(`a batch goes on after kill -9, ${KILLS.length} in all, and makes every document once`, async () => {
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
  while ((await madeOf(body.id)).state !== 'done') await new Promise((resolve) => setTimeout(resolve, 50));
  const { batch } = await look(`/api/jobs/${body.id}`);
  const whole = await look(`/api/document-batches/${batch}`);
  expect(whole).toMatchObject({ made: RUNS, of: RUNS, state: 'complete' });
  // What was there after each kill is there still, at its place.
  for (const documents of kept) expect(whole.documents.slice(0, documents.length)).toEqual(documents);
  expect(kept[0]?.length).toBeLessThan(RUNS);

  const reader = database.records.read(labId);
  const subjects = await reader.find(tables.DocumentSubject, {});
  expect(subjects).toHaveLength(RUNS);
  expect(new Set(subjects.map(({ runId }) => runId)).size).toBe(RUNS);
  expect(await reader.find(tables.DocumentBatch, {})).toHaveLength(1);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
}, 240_000);

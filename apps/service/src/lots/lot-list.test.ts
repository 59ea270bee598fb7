import 'reflect-metadata';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore, tables } from '@breakbook/records';
import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { evaluateAndKeep } from '../evaluations/evaluate-stored-lot.js';
import { importLot } from './import-lot.js';

const folder = fileURLToPath(new URL('../../../../sample-runs/dunlin-42-keyed', import.meta.url));
const bundle = readLotFolder(
  new Map(LOT_FOLDER_DOCUMENTS.map((name) => [name, fs.readFileSync(path.join(folder, name))])),
);
const store = new PostgresRawStore();

let service: TestService;
let reader: SignedInCaller;
beforeAll(async () => {
  service = await startTestService();
  await importLot(service.records, store, { ...bundle, lab: { ...bundle.lab, lab: await labKey() } }, () => []);
  await addLotsAlike(2);
  reader = await service.signIn('reader');
}, 120_000);
afterAll(() => service.close());

async function labKey(): Promise<string> {
  const [lab] = await service.records.labs();
  return lab?.key ?? '';
}

/** Lots as they are before anything of them is broken. */
async function addLotsAlike(many: number): Promise<void> {
  const rowsOf = service.records.read(service.lab.labId);
  const { productId, id } = await rowsOf.named(tables.Lot, bundle.lot.lot);
  const { customer, content } = await rowsOf.latest(tables.LotVersion, id);
  await service.records.change(service.lab, 'lot defined', async (rows) => {
    for (let n = 0; n < many; n++) {
      const key = `AS-MADE-${(await rows.find(tables.Lot, {})).length}`;
      const lot = await rows.add(tables.Lot, { key, productId });
      await rows.addVersion(tables.LotVersion, lot.id, { customer, content: { ...content, lot: key } });
    }
  });
}

const listed = async () => (await reader.ask('GET', '/api/lots')).body.items;

describe('the list of lots', () => {
  it('shows each lot as its sheet does, or says why there is nothing to show', async () => {
    const { body: sheet } = await reader.ask('GET', `/api/lots/${bundle.lot.lot}/sheet`);
    const [judged, ...others] = await listed();
    expect(judged).toMatchObject({
      lot: bundle.lot.lot,
      product: { product: bundle.product.product },
      closed: false,
      evaluation: { outcome: sheet.lot.outcome, sentence: sheet.lot.sentence, strip: sheet.figures[0].marginStrip },
    });
    expect(judged.evaluation.strip.specimens.length).toBeGreaterThan(1);
    expect(others).toHaveLength(2);
    for (const { evaluation } of others)
      expect(evaluation).toMatchObject({ notEvaluated: { because: 'this lot was never evaluated' } });
  });

  it('asks the database as often for many lots as for few', async () => {
    const pool = (service.app.get(DataSource).driver as unknown as { master: NodeJS.EventEmitter }).master;
    const asks = async () => {
      let count = 0;
      const counted = () => {
        count += 1;
      };
      pool.on('acquire', counted);
      await listed();
      pool.off('acquire', counted);
      return count;
    };
    const few = await asks();
    await addLotsAlike(10);
    expect(await listed()).toHaveLength(13);
    // The service looks for jobs by itself now and then, on the same connections.
    expect(await asks()).toBeLessThan(few + 5);
  });

  it('shows the last evaluation, once there is another one', async () => {
    const [before] = await listed();
    const [run] = await service.records.read(service.lab.labId).find(tables.Run, {});
    if (!run) throw new Error('The sample has no run.');
    await service.records.change(service.lab, 'validity decided', 'recorded by mistake', (rows) =>
      rows.addVersion(tables.ValidityDecision, run.id, {
        validity: 'void',
        content: { validity: 'void', person: 'reader', at: '2026-11-01T10:00:00Z' },
      } as never),
    );
    await evaluateAndKeep(service.records, store, service.lab, bundle.lot.lot);
    const [after] = await listed();
    expect(after.evaluation.strip.specimens).toHaveLength(before.evaluation.strip.specimens.length - 1);
  });
});

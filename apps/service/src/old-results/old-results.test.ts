import { createHash } from 'node:crypto';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

const LOT = 'OLD-1';
const bundle = keyedLot([{ kPa: 1900, validity: VALID }], { lot: LOT });
const { product } = bundle.product;
const HEADER = 'product,lot,specimen,test,characteristic,unit,outcome,value,date,rig,source,validity';
const row = (specimen: string, value: string, lot = LOT) =>
  `${product},${lot},${specimen},rim burst,burst pressure,kPa,at least,${value},2019-05-17,unknown,bench book 3,valid`;
const TABLE = `${HEADER}\n${row('S-1', '100')}\n${row('S-2', '1840.50', 'FIRST-EVER')}\n`;

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  await keepKeyedLot(service, bundle);
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
}, 120_000);
afterAll(() => service.close());

function send(table: string, { trial = false, by = operator, name = 'bench book.csv' } = {}): Promise<Answer> {
  const address = trial
    ? `/api/old-results/trials?name=${encodeURIComponent(name)}`
    : `/api/old-results?name=${encodeURIComponent(name)}&note=from+the+bench+book`;
  return by.ask('POST', address, { body: table, headers: { 'content-type': 'text/csv' } });
}

async function entries(): Promise<number> {
  return (await reviewer.ask('GET', '/api/ledger?order=newest&limit=1')).body.items[0].sequence;
}

describe('a table of old results', () => {
  it('is tried first: what would be stored is told, and nothing is', async () => {
    const before = await entries();
    const { status, body } = await send(TABLE, { trial: true });
    expect(status).toBe(200);
    expect(body).toMatchObject({
      bytes: Buffer.byteLength(TABLE),
      sha256: createHash('sha256').update(TABLE).digest('hex'),
      flags: [],
      results: [
        { line: 2, specimen: 'S-1', lotKnown: true, value: { kind: 'atLeast', value: 100 } },
        { line: 3, specimen: 'S-2', lotKnown: false, written: ['1840.50'] },
      ],
    });
    expect(await entries()).toBe(before);
    expect((await operator.ask('GET', '/api/old-results')).body.items).toEqual([]);
  });

  it('with anything wrong in it is refused whole, by line and column', async () => {
    const before = await entries();
    const wrong = `${TABLE}${row('S-3', 'about 1800')}\n`;
    for (const trial of [true, false])
      expect(await send(wrong, { trial })).toMatchObject({
        status: 422,
        body: { code: 'number.syntax', file: 'bench book.csv', line: 4, column: 8 },
      });
    const unknown = TABLE.replaceAll(product, 'dunlin-0');
    expect(await send(unknown)).toMatchObject({ status: 422, body: { code: 'meta.unknown', line: 2, errorCount: 2 } });
    const future = TABLE.replaceAll('2019-05-17', '2999-01-01');
    expect(await send(future)).toMatchObject({ status: 422, body: { code: 'meta.date', line: 2 } });
    expect(await send('')).toMatchObject({ status: 400, body: { code: 'body.empty' } });
    const json = await operator.ask('POST', '/api/old-results?name=a&note=b', { body: {} });
    expect(json).toMatchObject({ status: 415, body: { code: 'body.media-type' } });
    expect(await entries()).toBe(before);
  });

  it('is taken over once, with one entry of the ledger, though it is sent five times at once', async () => {
    const before = await entries();
    const answers = await Promise.all(Array.from({ length: 5 }, () => send(TABLE)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409]);
    expect(await entries()).toBe(before + 1);
    const { body } = await reviewer.ask('GET', '/api/old-results/1');
    expect(body).toMatchObject({ number: 1, rows: 2, name: 'bench book.csv', by: 'b-ravenscroft' });
    const file = await reviewer.fetch('/api/old-results/1/file');
    expect(await file.text()).toBe(TABLE);
    const reader = service.records.read(service.lab.labId);
    expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
  });

  it('stands beside the lot and the product it names, and the judgement of the lot does not know it', async () => {
    const ofLot = (await reviewer.ask('GET', `/api/lots/${LOT}/old-results`)).body.items;
    expect(ofLot).toMatchObject([{ table: 1, line: 2, specimen: 'S-1' }]);
    const ofProduct = (await reviewer.ask('GET', `/api/products/${product}/old-results`)).body.items;
    expect(ofProduct.map(({ specimen }: { specimen: string }) => specimen)).toEqual(['S-1', 'S-2']);

    const asked = await reviewer.ask('POST', `/api/lots/${LOT}/evaluations`);
    await (await reviewer.fetch(`${asked.headers.get('location')}/events`)).text();
    const sheet = (await reviewer.ask('GET', `/api/lots/${LOT}/sheet`)).body;
    expect(sheet.lot.outcome).toBe('meets the plan');
    // A told 100 kPa is far below every limit: counted, the lot would fail.
    expect(JSON.stringify(sheet)).not.toContain('S-1"');
    expect((await reviewer.ask('GET', `/api/runs?lot=${LOT}`)).body.items).toHaveLength(1);
  });

  it('is withdrawn by another person than took it over, and stays readable', async () => {
    const withdraw = (by: SignedInCaller) =>
      by.ask('POST', '/api/old-results/1/withdrawal', { body: { reason: 'the book is of another rim' } });
    expect(await withdraw(operator)).toMatchObject({ status: 403 });
    const definer = await service.signIn('keeper', ['define']);
    const own = await send(TABLE.replaceAll('S-1', 'S-9'), { by: definer });
    expect(own).toMatchObject({ status: 201, body: { number: 2 } });
    expect(await definer.ask('POST', '/api/old-results/2/withdrawal', { body: { reason: 'mine' } })).toMatchObject({
      status: 403,
      body: { code: 'duty.conflict' },
    });
    const answers = await Promise.all([withdraw(reviewer), withdraw(definer), withdraw(reviewer)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
    expect((await operator.ask('GET', `/api/lots/${LOT}/old-results`)).body.items).toMatchObject([{ table: 2 }]);
    expect((await operator.ask('GET', '/api/old-results/1')).body).toMatchObject({
      withdrawn: { reason: 'the book is of another rim' },
      results: [{ specimen: 'S-1' }, { specimen: 'S-2' }],
    });
    expect((await operator.ask('GET', '/api/old-results/7')).status).toBe(404);
  });
});

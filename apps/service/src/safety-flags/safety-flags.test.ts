import { checkPackage, parseNoteKey } from '@breakbook/evidence';
import { SAFETY_CAUTION } from '@breakbook/lab';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fromBufferPromise } from 'yauzl';
import { queryAs } from '../../../../tests/database.js';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;
let decider: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  for (const lot of ['SEEN', 'ALIKE']) {
    const bundle = keyedLot([{ kPa: 1900, validity: VALID }], { lot });
    bundle.specimens = bundle.specimens.map((one) => ({ ...one, build: { mould: 'M3', shift: lot } }));
    await keepKeyedLot(service, bundle);
  }
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
  decider = await service.signIn('t-ibanez');
}, 120_000);
afterAll(() => service.close());

const FLAG = {
  title: 'Cracks at the valve hole',
  reason: 'A rim that cracks there may lose its tyre at speed.',
  seen: 'Three of eight rims cracked at 300 kPa.',
  doneAtOnce: 'Shipment stopped at 14:10.',
  lots: [] as string[],
  runs: ['SEEN-r1'],
  nonconformities: [] as number[],
  serials: ['S-SEEN-1', 'S-SOLD-77'],
};

const raise = (change: object = {}, by = operator) =>
  by.ask('POST', '/api/safety-flags', { body: { ...FLAG, ...change } });
const put = (by: SignedInCaller, n: number, seen: number) =>
  by.ask('PUT', `/api/safety-flags/${n}`, {
    body: { reason: 'a second look', content: { ...FLAG, seen: 'Four of eight.' } },
    headers: { 'if-match': `"${seen}"` },
  });
const close = (by: SignedInCaller, n: number, seen: number) =>
  by.ask('POST', `/api/safety-flags/${n}/closing`, {
    body: { decision: 'Counsel was told; the lot is recalled.' },
    headers: { 'if-match': `"${seen}"` },
  });
const sheet = async () => (await decider.ask('GET', '/api/lots/SEEN/disposition')).body.sheet;

describe('a safety flag', () => {
  it('is raised by whoever works here, on lots, runs and nonconformities that are there', async () => {
    const { number } = (
      await operator.ask('POST', '/api/nonconformities', {
        body: { title: 'Cracks', found: 'Seen.', lots: ['ALIKE'], runs: [], specimens: [] },
      })
    ).body;
    expect((await raise({ nonconformities: [number] })).body).toMatchObject({
      state: 'open',
      version: 1,
      raisedBy: 'b-ravenscroft',
      concerns: ['ALIKE', 'SEEN'],
    });
    expect(await raise({ runs: [] })).toMatchObject({ status: 422, body: { code: 'body.missing-field' } });
    expect(await raise({ nonconformities: [999] })).toMatchObject({
      status: 422,
      body: { code: 'body.not-found', pointer: '/nonconformities/0' },
    });
    expect(await raise({ doneAtOnce: undefined })).toMatchObject({
      status: 422,
      body: { code: 'body.missing-field', pointer: '/doneAtOnce' },
    });
  });

  it('keeps the lots it concerns from being decided about while it is open, and is shown there', async () => {
    const { number } = (await raise()).body;
    const before = await sheet();
    expect(before.safetyFlags.at(-1)).toMatchObject({ number, title: FLAG.title, state: 'open' });
    expect(JSON.stringify(before.missing)).toContain(`${number}`);
    expect(await close(decider, number, 1)).toMatchObject({ status: 200, body: { state: 'closed' } });
    const after = await sheet();
    expect(after.safetyFlags.at(-1)).toMatchObject({
      number,
      state: 'closed',
      decision: 'Counsel was told; the lot is recalled.',
    });
  });

  it('is closed by nobody who wrote in it, not by the program and not by the database, and once', async () => {
    const { number } = (await raise({}, decider)).body;
    expect(await close(decider, number, 1)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    expect(await close(reviewer, number, 1)).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
    await expect(
      queryAs(
        service.database.owner,
        `insert into safety_flag_version (lab_id, id, person_id, at, record_id, version, reason, state, content)
         select lab_id, gen_random_uuid(), person_id, now(), id, 2, 'because', 'closed', '{}'
         from safety_flag where number = ${number}`,
      ),
    ).rejects.toMatchObject({ code: 'BB006' });
    expect(await put(operator, number, 1)).toMatchObject({ status: 200, body: { version: 2 } });
    expect(await put(operator, number, 1)).toMatchObject({ status: 412 });
    const second = await service.signIn('second-decider', ['decide']);
    const answers = await Promise.all(Array.from({ length: 6 }, () => close(second, number, 2)));
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { status } of answers.filter((one) => one.status !== 200)) expect(status).toBe(409);
    expect(await put(operator, number, 3)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const { items } = (await decider.ask('GET', `/api/safety-flags/${number}/history`)).body;
    expect(items.map((one: { state: string }) => one.state)).toEqual(['open', 'open', 'closed']);
  });

  it('names the lots that can be named today, and why each, and decides nothing of them', async () => {
    const { number } = (await raise()).body;
    const { items } = (await operator.ask('GET', `/api/safety-flags/${number}/touched`)).body;
    expect(items).toEqual([
      { lot: 'SEEN', product: expect.any(String), because: [`named by safety flag ${number}`] },
      { lot: 'ALIKE', product: items[0].product, because: [`same product ${items[0].product}`, 'built with mould M3'] },
    ]);
  });

  it('is listed by state and lot', async () => {
    const list = async (query: string) => (await operator.ask('GET', `/api/safety-flags?${query}`)).body;
    for (const one of (await list('lot=SEEN')).items) expect(one).toMatchObject({ state: 'open' });
    expect((await list('state=closed')).items.length).toBeGreaterThan(0);
    expect(await list('lot=nowhere')).toMatchObject({ code: 'query.invalid' });
  });

  it('makes an evidence pack: the lot, the flag as it was said, the lots it may touch, and what is not decided', async () => {
    const { number } = (await raise()).body;
    const pack = (lot: string) => reviewer.ask('POST', `/api/safety-flags/${number}/packages`, { body: { lot } });
    expect(await pack('nowhere')).toMatchObject({ status: 422, body: { code: 'body.not-found', pointer: '/lot' } });
    const asked = await pack('SEEN');
    expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 202 });
    await (await reviewer.fetch(`${asked.headers.get('location')}/events`)).text();
    const [made] = (await reviewer.ask('GET', '/api/lots/SEEN/packages')).body.items;
    const bytes = Buffer.from(await (await reviewer.fetch(`/api/packages/${made.number}/zip`)).arrayBuffer());
    const files = await unpacked(bytes);
    expect(files.get('safety-flag/READ-FIRST.txt')?.toString()).toContain(SAFETY_CAUTION);
    expect(JSON.parse(files.get('safety-flag/flag.json')?.toString() ?? '')).toMatchObject([
      { number, content: FLAG, raisedBy: 'b-ravenscroft' },
    ]);
    expect(files.get('tables/touched-lots.csv')?.toString()).toMatch(/^ALIKE,.*same product .*built with mould M3/m);
    const { key } = (await reviewer.ask('GET', '/api/ledger/key')).body;
    const source = {
      paths: [...files.keys()],
      async *read(name: string) {
        yield files.get(name) ?? Buffer.alloc(0);
      },
    };
    const checked = await checkPackage(source, { key: parseNoteKey(key) });
    expect(checked, JSON.stringify(checked)).toMatchObject({ holds: true, lot: 'SEEN' });
    // A lot that only may be touched has the flag among its rows, too.
    const other = await pack('ALIKE');
    await (await reviewer.fetch(`${other.headers.get('location')}/events`)).text();
    const [alike] = (await reviewer.ask('GET', '/api/lots/ALIKE/packages')).body.items;
    const all = await unpacked(
      Buffer.from(await (await reviewer.fetch(`/api/packages/${alike.number}/zip`)).arrayBuffer()),
    );
    expect(all.get('ledger/rows.jsonl')?.toString()).toContain('safety_flag_version');
  }, 60_000);

  it('leaves rows that the ledger names, all of them', async () => {
    const report = await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore());
    expect(report.holds, JSON.stringify(report)).toBe(true);
  });
});

async function unpacked(bytes: Buffer): Promise<Map<string, Buffer>> {
  const all = new Map<string, Buffer>();
  const zip = await fromBufferPromise(bytes, { lazyEntries: true });
  for await (const entry of zip.eachEntry()) {
    const pieces: Buffer[] = [];
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece);
    all.set(entry.fileName, Buffer.concat(pieces));
  }
  return all;
}

import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;
let decider: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  const at = { person: 'a-grossmann', at: '2026-07-17T12:20:00Z' };
  await keepKeyedLot(
    service,
    keyedLot(
      [
        { kPa: 1900, validity: VALID },
        { kPa: 1450, validity: VALID },
        { kPa: 900, validity: { validity: 'invalid', reason: 'rig fault', ...at } },
        { kPa: 900, validity: { validity: 'invalid', reason: 'specimen damaged before the run', ...at } },
        { kPa: 1600 },
      ],
      { planned: 3 },
    ),
  );
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
  decider = await service.signIn('t-ibanez');
}, 120_000);
afterAll(() => service.close());

const list = async (query = '') => (await reviewer.ask('GET', `/api/nonconformities${query}`)).body.items;
const one = async (number: number) => (await reviewer.ask('GET', `/api/nonconformities/${number}`)).body;

async function opened(by = operator): Promise<{ number: number; version: number }> {
  const answer = await by.ask('POST', '/api/nonconformities', {
    body: { title: 'Gauge read without a lamp', found: 'Lamp out.', lots: [], runs: ['KEYED-1-r1'], specimens: [] },
  });
  expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
  return answer.body;
}

const WORKED = {
  title: 'Gauge read without a lamp',
  found: 'Lamp out.',
  lots: [],
  runs: ['KEYED-1-r1'],
  specimens: [],
  cause: 'The lamp was broken.',
  containment: 'The reading was compared with the logger.',
  correctiveAction: 'A lamp was bought.',
  due: '2026-12-01',
};

const put = (by: SignedInCaller, n: number, version: number, content: object = WORKED) =>
  by.ask('PUT', `/api/nonconformities/${n}`, {
    body: { reason: 'cause found', content },
    headers: { 'if-match': `"${version}"` },
  });
const close = (by: SignedInCaller, n: number, version: number) =>
  by.ask('POST', `/api/nonconformities/${n}/closing`, {
    body: { reason: 'seen to be done' },
    headers: { 'if-match': `"${version}"` },
  });

describe('the records open nonconformities', () => {
  it('for each run with a failed verdict, and for each that an error of the lab made invalid, once', async () => {
    const found = (await list('?lot=KEYED-1&state=any')).map(
      (item: { content: { source: string; runs: string[] } }) => [item.content.source, item.content.runs],
    );
    expect(found).toEqual([
      ['failed verdict', ['KEYED-1-r2']],
      ['lab error', ['KEYED-1-r3']],
    ]);
    const asked = await reviewer.ask('POST', '/api/lots/KEYED-1/evaluations', { body: {} });
    await (await reviewer.fetch(`${asked.headers.get('location')}/events`)).text();
    expect(await list('?lot=KEYED-1&state=any')).toHaveLength(2);
  });

  it('in the moment in which validity is decided, and not before', async () => {
    const at = '/api/runs/KEYED-1-r5';
    const seen = (await reviewer.ask('GET', at)).headers.get('etag') ?? '';
    await reviewer.ask('POST', `${at}/validity`, { body: { validity: 'valid' }, headers: { 'if-match': seen } });
    const last = (await list('?lot=KEYED-1')).at(-1);
    // 1600 kPa holds the 1500 kPa of the governing body and not the 1750 kPa of the lab.
    expect(last.content).toMatchObject({ source: 'failed verdict', runs: ['KEYED-1-r5'] });
    expect(last.content.title).toContain('SW-RIM-BURST');
    expect(last.content.title).not.toContain('OCF-W-7.2');
  });
});

describe('a nonconformity', () => {
  it('is opened by a person and concerns the lot of the run it names', async () => {
    const { number } = await opened();
    expect(await one(number)).toMatchObject({
      state: 'open',
      openedBy: 'b-ravenscroft',
      concerns: ['KEYED-1'],
      content: { source: 'found by a person' },
    });
  });

  it.each([
    [{ lots: ['no-such-lot'], runs: [], specimens: [] }, 'body.not-found', '/lots/0'],
    [{ lots: [], runs: ['no-such-run'], specimens: [] }, 'body.not-found', '/runs/0'],
    [{ lots: [], runs: [], specimens: ['no-such'] }, 'body.not-found', '/specimens/0'],
    [{ lots: [], runs: [], specimens: [] }, 'body.missing-field', '/lots'],
    [{ lots: ['KEYED-1'], runs: [], specimens: [], source: 'lab error' }, 'body.unknown-field', '/source'],
  ])('that names %j is refused', async (names, code, pointer) => {
    const answer = await operator.ask('POST', '/api/nonconformities', { body: { title: 'x', found: 'y', ...names } });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 422, body: { code, pointer } });
  });

  it('is closed by a person who wrote none of it, and only once cause, containment, action and day are said', async () => {
    const { number, version } = await opened();
    const early = await close(reviewer, number, version);
    expect(early).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    expect(early.body.detail).toContain('cause, containment, corrective action, day it is due');
    expect(await put(operator, number, version)).toMatchObject({ status: 200, body: { version: 2, state: 'open' } });
    const both = await service.signIn('writes-and-reviews', ['record', 'review']);
    expect(await put(both, number, 2)).toMatchObject({ status: 200, body: { version: 3 } });
    expect(await close(both, number, 3)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    expect(await close(reviewer, number, 2)).toMatchObject({ status: 412, body: { code: 'version.stale' } });
    expect(await close(reviewer, number, 3)).toMatchObject({ status: 200, body: { version: 4, state: 'closed' } });
    expect(await close(decider, number, 4)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    expect(await put(operator, number, 4)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const reopened = await operator.ask('POST', `/api/nonconformities/${number}/reopening`, {
      body: { reason: 'it came back' },
      headers: { 'if-match': '"4"' },
    });
    expect(reopened).toMatchObject({ status: 200, body: { version: 5, state: 'open', reason: 'it came back' } });
    const { body } = await reviewer.ask('GET', `/api/nonconformities/${number}/history`);
    expect(body.items.map((item: { state: string }) => item.state)).toEqual(['open', 'open', 'open', 'closed', 'open']);
  });

  it('needs the version that a change follows, and is closed once though eight try at once', async () => {
    const { number, version } = await opened();
    await put(operator, number, version);
    const bare = await operator.ask('PUT', `/api/nonconformities/${number}`, {
      body: { reason: 'x', content: WORKED },
    });
    expect(bare).toMatchObject({ status: 428, body: { code: 'version.required' } });
    const answers = await Promise.all(
      Array.from({ length: 8 }, (_, n) => close(n % 2 ? reviewer : decider, number, 2)),
    );
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { status } of answers.filter((answer) => answer.status !== 200)) expect(status).toBe(409);
  });

  it('that lies open is told of its lot, and the closed ones only where they are asked for', async () => {
    const open = await list('?lot=KEYED-1');
    expect(open.every((item: { state: string }) => item.state === 'open')).toBe(true);
    const closed = await list('?lot=KEYED-1&state=closed');
    expect(closed.length).toBeGreaterThan(0);
    expect(closed.every((item: { state: string }) => item.state === 'closed')).toBe(true);
    const unknown = await reviewer.ask('GET', '/api/nonconformities?lot=nowhere');
    expect(unknown).toMatchObject({ status: 422, body: { code: 'query.invalid' } });
  });

  it('leaves rows that the ledger names, all of them', async () => {
    const report = await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore());
    expect(report.holds, JSON.stringify(report)).toBe(true);
  });
});

import { randomUUID } from 'node:crypto';
import { startService } from '@breakbook/service';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { burstFile, burstRun, formOf, keepLot, specimenKey } from '../../../../tests/sent-runs.js';
import { type Answer, aCaller, type Caller, startTestService, type TestService } from '../../../../tests/service.js';

const FILE = Buffer.byteLength(burstFile(specimenKey(1)));
/** Four files go into it, whatever their noise, and no fifth. */
const QUOTAS = { bytes: Math.round(4.5 * FILE), exports: 2, runs: 3 };
const LATER = { status: 429, body: { code: 'rate.limited', action: expect.stringContaining('Retry-After') } };

let service: TestService;
let specimens = 0;
beforeAll(async () => {
  service = await startTestService({ quotas: QUOTAS });
  await keepLot(service.records, 40);
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'TAKEN' }));
}, 120_000);
afterAll(() => service.close());

const head = async () =>
  (await queryAs<{ n: string }>(service.database.owner, 'select sequence as n from ledger_head'))[0]?.n;

function send(by: Caller, given: { key?: string; specimen?: string; broken?: boolean } = {}): Promise<Answer> {
  const { key = randomUUID(), specimen = specimenKey(++specimens), broken = false } = given;
  const file = burstFile(specimen);
  return by.ask('POST', '/api/runs', {
    body: formOf(burstRun(specimen), { 'log.csv': broken ? file.replace(',21.80\n', ',Err\n') : file }),
    headers: { 'idempotency-key': key },
  });
}

/** The hour of every count began so many seconds earlier than it did. */
function passed(seconds: number): Promise<unknown> {
  return queryAs(service.database.owner, `update caller_use set since = since - make_interval(secs => ${seconds})`);
}

function taken({ status, body }: Answer): void {
  expect(status, JSON.stringify(body)).toBe(201);
}

function expectLater(answer: Answer, most = 3600): void {
  expect(answer, JSON.stringify(answer.body)).toMatchObject(LATER);
  const wait = Number(answer.headers.get('retry-after'));
  expect(wait).toBeGreaterThan(most - 120);
  expect(wait).toBeLessThanOrEqual(most);
}

describe('runs of one caller within an hour', () => {
  it('are as many as the figure, though eight are sent at once; then it is told when to come again', async () => {
    const sender = await service.signIn('sender', ['record']);
    const answers = await Promise.all(Array.from({ length: 8 }, () => send(sender)));
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(QUOTAS.runs);
    for (const answer of answers.filter(({ status }) => status !== 201)) {
      expectLater(answer);
      expect(answer.body).toMatchObject({ stored: false });
    }
    const before = await head();
    expectLater(await send(sender));
    expect(await head()).toBe(before);
    await passed(1800);
    expectLater(await send(sender), 1800);
    await passed(1800);
    taken(await send(sender));
  }, 60_000);

  it('do not count what is refused, nor what is heard again under its key', async () => {
    const sender = await service.signIn('careful', ['record']);
    const specimen = specimenKey(++specimens);
    const key = randomUUID();
    for (let n = 0; n < 3; n += 1) expect((await send(sender, { specimen: 'nobody' })).status).toBe(422);
    for (let n = 0; n < 5; n += 1) taken(await send(sender, { specimen, key }));
    for (let n = 1; n < QUOTAS.runs; n += 1) taken(await send(sender));
    expectLater(await send(sender));
    taken(await send(sender, { specimen, key }));
  }, 60_000);

  it('are counted for a rig’s token apart from people, and over a start of the service', async () => {
    const office = await service.signIn('y-hamasaki');
    const { body } = await office.ask('POST', '/api/rigs/R1/tokens', { body: { note: 'counted', days: 1 } });
    const rig = service.withToken(body.token);
    for (let n = 0; n < QUOTAS.runs; n += 1) taken(await send(rig));
    expectLater(await send(rig));
    const again = await startService({
      database: service.database.service,
      keys: service.keys,
      host: '127.0.0.1',
      port: 0,
      quotas: QUOTAS,
    });
    expectLater(await send(aCaller(again.url, { authorization: `Bearer ${body.token}` })));
    await again.close();
  }, 60_000);
});

describe('bytes of one caller within an hour', () => {
  it('of refused files are kept unread up to the figure, and not beyond it', async () => {
    const sender = await service.signIn('unlucky', ['record']);
    for (let n = 0; n < 4; n += 1)
      expect(await send(sender, { broken: true })).toMatchObject({ status: 422, body: { stored: 'unread' } });
    const before = await head();
    const answer = await send(sender, { broken: true });
    expectLater(answer);
    expect(answer.body).toMatchObject({ stored: false });
    expect(await head()).toBe(before);
  });

  it.each([
    [
      'attached files',
      (by: Caller, n: number) =>
        by.ask('POST', `/api/attachments?${new URLSearchParams({ ...PHOTO, specimen: specimenKey(30 + n) })}`, {
          body: PNG,
          headers: { 'content-type': 'image/png' },
        }),
    ],
    [
      'tables of old results',
      (by: Caller, n: number) =>
        by.ask('POST', `/api/old-results?name=${n}.csv&note=counted`, {
          body: OLD.replace('1840.5', `184${n}`),
          headers: { 'content-type': 'text/csv' },
        }),
    ],
  ])('count %s', async (what, keep) => {
    const sender = await service.signIn(what.replaceAll(' ', '-'), ['record']);
    const first = await keep(sender, 1);
    expect(first.status, JSON.stringify(first.body)).toBe(201);
    await queryAs(
      service.database.owner,
      `update caller_use set used = ${QUOTAS.bytes - 10} where id = '${sender.personId}' and kind = 'bytes'`,
    );
    const before = await head();
    expectLater(await keep(sender, 2));
    expect(await head()).toBe(before);
  });
});

it('documents and packages of one caller within an hour are as many as the figure, taken together', async () => {
  const reviewer = await service.signIn('taker-away', ['review', 'issue']);
  const { body: job } = await reviewer.ask('POST', '/api/lots/TAKEN/evaluations');
  const evaluation = await ended(reviewer, job.id);
  const pack = () => reviewer.ask('POST', '/api/lots/TAKEN/packages');
  const report = () =>
    reviewer.ask('POST', `/api/evaluations/${evaluation}/documents`, { body: { kind: 'lot test report' } });
  expect((await report()).status).toBe(202);
  const answers = await Promise.all([pack(), pack(), pack(), report()]);
  expect(answers.filter(({ status }) => status === 202)).toHaveLength(QUOTAS.exports - 1);
  for (const answer of answers.filter(({ status }) => status !== 202)) expectLater(answer);
  // Judging again takes nothing away.
  expect((await reviewer.ask('POST', '/api/lots/TAKEN/evaluations')).status).toBe(202);
}, 60_000);

async function ended(by: Caller, id: string): Promise<number> {
  for (;;) {
    const { body } = await by.ask('GET', `/api/jobs/${id}`);
    if (body.state === 'done') return body.evaluation;
    expect(['waiting', 'running']).toContain(body.state);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

const PHOTO = {
  caption: 'Crack at the valve',
  takenBy: 'b-ravenscroft',
  device: 'Bench camera 2',
  takenAt: '2026-09-21T09:40:00+02:00',
};
// Made by ImageMagick 6.9.11: convert -size 5x3 xc:teal PNG24:a.png.
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=',
  'base64',
);
const OLD =
  'product,lot,specimen,test,characteristic,unit,outcome,value,date,rig,source,validity\n' +
  `${keyedLot([]).product.product},FIRST-EVER,S-1,rim burst,burst pressure,kPa,at least,1840.5,2019-05-17,unknown,bench book 3,valid\n`;

import type { LotBundle } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let bundle: LotBundle;
let reviewer: SignedInCaller;
let decider: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  bundle = await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }, { kPa: 1850 }]));
  reviewer = await service.signIn('a-grossmann');
  decider = await service.signIn('t-ibanez');
}, 120_000);
afterAll(() => service.close());

const OPINION = { text: 'The break begins at the valve hole.', basis: 'The photograph, and the results alone.' };

const give = (by: SignedInCaller, change: object = { lot: 'KEYED-1' }) =>
  by.ask('POST', '/api/opinions', { body: { ...OPINION, ...change } });
const put = (by: SignedInCaller, n: number, version: number) =>
  by.ask('PUT', `/api/opinions/${n}`, {
    body: { reason: 'seen under the lamp', content: { ...OPINION, text: 'It begins beside the valve hole.' } },
    headers: { 'if-match': `"${version}"` },
  });
const withdraw = (by: SignedInCaller, n: number, version: number) =>
  by.ask('POST', `/api/opinions/${n}/withdrawal`, {
    body: { reason: 'it was the other rim' },
    headers: { 'if-match': `"${version}"` },
  });

/** Somebody else says what this person may do, until a day. */
async function authorised(whose: SignedInCaller, by: SignedInCaller, until = '2099-12-31') {
  for (const { method, revision } of bundle.methods) {
    const answer = await by.ask('POST', `/api/people/${whose.person}/competences`, {
      body: { method, revision, level: 'authorised', until, note: 'six runs watched' },
    });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
  }
}

describe('an opinion', () => {
  it('is given by nobody who is not authorised for the methods behind the results, today', async () => {
    expect(await give(reviewer)).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
    const trainer = await service.signIn('trainer', ['review']);
    await authorised(reviewer, trainer, '2020-01-01');
    const late = await give(reviewer);
    expect(late).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
    expect(late.body.detail).toContain('rev.');
    await authorised(reviewer, trainer);
    await authorised(decider, trainer);
    expect((await give(reviewer)).status).toBe(201);
  });

  it('is bound to the results of a lot or of a run whose validity is decided', async () => {
    expect((await give(decider)).body).toMatchObject({ lot: 'KEYED-1', evaluation: 1, by: 't-ibanez', version: 1 });
    expect((await give(decider, { run: 'KEYED-1-r1' })).body).toMatchObject({ lot: 'KEYED-1', run: 'KEYED-1-r1' });
    const undecided = await give(decider, { run: 'KEYED-1-r2' });
    expect(undecided).toMatchObject({ status: 409, body: { code: 'state.conflict', pointer: '/run' } });
    for (const change of [{}, { lot: 'KEYED-1', run: 'KEYED-1-r1' }])
      expect(await give(decider, change)).toMatchObject({ status: 422 });
    expect(await give(decider, { lot: 'nowhere' })).toMatchObject({
      status: 422,
      body: { code: 'body.not-found', pointer: '/lot' },
    });
    expect(await give(decider, { lot: 'KEYED-1', basis: undefined })).toMatchObject({
      status: 422,
      body: { code: 'body.missing-field', pointer: '/basis' },
    });
  });

  it('is never given by whoever administers the lab', async () => {
    const both = await service.signIn('runs-it-all', ['administer', 'review']);
    await authorised(both, reviewer);
    expect(await give(both)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
  });

  it('is said anew as a further version, taken back once, and then not said any more', async () => {
    const { number } = (await give(reviewer)).body;
    const bare = await reviewer.ask('PUT', `/api/opinions/${number}`, { body: { reason: 'x', content: OPINION } });
    expect(bare).toMatchObject({ status: 428 });
    expect((await put(decider, number, 1)).body).toMatchObject({ version: 2, by: 't-ibanez', state: 'given' });
    expect(await put(reviewer, number, 1)).toMatchObject({ status: 412, body: { code: 'version.stale' } });
    const answers = await Promise.all(Array.from({ length: 6 }, () => withdraw(reviewer, number, 2)));
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { status } of answers.filter((one) => one.status !== 200)) expect(status).toBe(409);
    expect(await put(reviewer, number, 3)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const { items } = (await reviewer.ask('GET', `/api/opinions/${number}/history`)).body;
    expect(items.map((one: { state: string }) => one.state)).toEqual(['given', 'given', 'withdrawn']);
    expect(items[0].content).toEqual(OPINION);
  });

  it('stands on the sheet that is signed, with who gave it, and not once it was taken back', async () => {
    const { number } = (await give(reviewer, { run: 'KEYED-1-r1' })).body;
    const shown = async () => (await decider.ask('GET', '/api/lots/KEYED-1/disposition')).body;
    const before = await shown();
    expect(before.sheet.opinions.find((one: { number: number }) => one.number === number)).toMatchObject({
      ...OPINION,
      run: 'KEYED-1-r1',
      by: 'a-grossmann',
    });
    await withdraw(reviewer, number, 1);
    const after = await shown();
    expect(after.sheet.opinions.map((one: { number: number }) => one.number)).not.toContain(number);
    expect(after.sha256).not.toBe(before.sha256);
  });

  it('is found by its lot or its run', async () => {
    const of = async (query: string) => (await reviewer.ask('GET', `/api/opinions?${query}`)).body;
    const ofRun = (await of('run=KEYED-1-r1')).items;
    expect(ofRun.length).toBeGreaterThan(0);
    for (const { run } of ofRun) expect(run).toBe('KEYED-1-r1');
    expect((await of('lot=KEYED-1')).items.length).toBeGreaterThan(ofRun.length);
    expect(await of('lot=nowhere')).toMatchObject({ code: 'query.invalid' });
    const reader = service.records.read(service.lab.labId);
    expect(await reader.find(tables.Opinion, {})).toHaveLength((await of('lot=KEYED-1')).items.length);
  });
});

import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { formOf } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

const LOT = 'COMPLETE';
const at = { person: 'a-grossmann', at: '2026-07-17T12:20:00Z' };
/** Two valid runs are planned and made, one beside them is invalid; six specimens wait. */
const bundle = keyedLot(
  [
    { kPa: 1900, validity: VALID },
    { kPa: 900, validity: { validity: 'invalid', reason: 'rig fault', ...at } },
    { kPa: 1600, validity: VALID },
  ],
  { lot: LOT, planned: 2, spare: 6 },
);

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

/** A run of the lot's specimen of this number, as its operator keys it. */
function send(n: number, change: object = {}) {
  const [model] = bundle.runs;
  const { files: _files, validity: _validity, ...run } = { ...model, ...change };
  const { plan, revision } = bundle.plan;
  const body = formOf({ ...run, run: `${LOT}-r${n}`, specimen: `${LOT}-${n}`, plan: { plan, revision } });
  return operator.ask('POST', '/api/runs', { body, headers: { 'idempotency-key': randomUUID() } });
}

const authorise = (by: SignedInCaller, body: object) => by.ask('POST', `/api/lots/${LOT}/retests`, { body });
const WANTED = { line: 'A', runs: 1, ground: 'assignable cause found', reason: 'The seal was found cracked.' };

describe('a run beyond the plan', () => {
  it('is refused, with why and what to do, while nobody authorised it', async () => {
    const answer = await send(4);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/planLine' },
    });
    expect(answer.body.detail).toContain('asks for 2 valid runs');
    expect(answer.body.action).toContain('retest authorised');
    expect((await operator.ask('GET', `/api/runs/${LOT}-r4`)).status).toBe(404);
  });

  it('is authorised by nobody who recorded a run of the lot, and for a line of its plan', async () => {
    const both = await service.signIn('b-ravenscroft');
    expect(await authorise(both, WANTED)).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
    expect(await authorise(reviewer, { ...WANTED, line: 'Z' })).toMatchObject({
      status: 422,
      body: { code: 'body.not-found', pointer: '/line' },
    });
    for (const change of [{ runs: 0 }, { runs: 21 }, { ground: 'it was low' }])
      expect((await authorise(reviewer, { ...WANTED, ...change })).status).toBe(422);
  });

  it('is made as often as was authorised, though four are sent at once, and each is counted', async () => {
    const { body } = await authorise(reviewer, { ...WANTED, runs: 2 });
    expect(body).toMatchObject({ number: 1, line: 'A', runs: 2, used: [], by: 'a-grossmann' });
    const answers = await Promise.all([4, 5, 6, 7].map((n) => send(n)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 201, 409, 409]);
    const { items } = (await reviewer.ask('GET', `/api/lots/${LOT}/retests`)).body;
    const taken = answers.flatMap((one) => (one.status === 201 ? one.body.run : []));
    expect(items[0].used.sort()).toEqual(taken.sort());
  });

  it('cannot be put under an authorisation that has no place left, not even in the database', async () => {
    await expect(
      queryAs(
        service.database.owner,
        `insert into retest_use (lab_id, id, person_id, at, retest_id, run_id, place)
         select retest.lab_id, gen_random_uuid(), retest.person_id, now(), retest.id, run.id, 3
         from retest join run on run.lab_id = retest.lab_id where run.key = '${LOT}-r1'`,
      ),
    ).rejects.toMatchObject({ code: 'BB007' });
  });

  it('that follows a valid failure and holds raises a mark on the lot’s disposition sheet', async () => {
    const { items } = (await reviewer.ask('GET', `/api/lots/${LOT}/retests`)).body;
    for (const run of items[0].used) {
      const { headers } = await reviewer.ask('GET', `/api/runs/${run}`);
      await reviewer.ask('POST', `/api/runs/${run}/validity`, {
        body: { validity: 'valid' },
        headers: { 'if-match': headers.get('etag') ?? '' },
      });
    }
    const asked = await reviewer.ask('POST', `/api/lots/${LOT}/evaluations`);
    await (await reviewer.fetch(`${asked.headers.get('location')}/events`)).text();
    const { sheet } = (await reviewer.ask('GET', `/api/lots/${LOT}/disposition`)).body;
    // 1600 kPa is below the 1750 kPa of the lab itself; the retests at 1840 kPa hold.
    expect(sheet.attempts.marks).toHaveLength(1);
    expect(sheet.attempts.marks[0]).toContain(`valid run ${LOT}-r3 did not conform`);
    expect(sheet.missing.map(({ what }: { what: string }) => what).join()).not.toContain('authorised retest');
  });
});

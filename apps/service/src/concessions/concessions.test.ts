import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let designer: SignedInCaller;
let decider: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  // One rim below the limit of the lab itself, one below that of the governing body too.
  await keepKeyedLot(service, keyedLot([1900, 1600, 1400].map((kPa) => ({ kPa, validity: VALID }))));
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'SOUND' }));
  designer = await service.signIn('i-sorbo');
  decider = await service.signIn('t-ibanez');
}, 120_000);
afterAll(() => service.close());

const WANTED = {
  kind: 'concession',
  lot: 'KEYED-1',
  limit: { limit: 'SW-RIM-BURST', revision: 2 },
  departure: 'Specimen KEYED-1-2 broke at 1600 kPa, the lab asks for 1750 kPa.',
  bounds: { quantity: 40 },
  until: '2099-12-31',
  reason: 'Forty wheels are wanted for a ride that keeps to smooth roads.',
  risk: 'The margin over the marked pressure is smaller than usual.',
};

const ask = (change: object = {}, by = designer) =>
  by.ask('POST', '/api/concessions', { body: { ...WANTED, ...change } });
const decide = (by: SignedInCaller, n: number, move: string, version = 1) =>
  by.ask('POST', `/api/concessions/${n}/${move}`, {
    body: { reason: 'weighed with the design office' },
    headers: { 'if-match': `"${version}"` },
  });

describe('a concession', () => {
  it('is asked for by one person and granted by another, and changes no verdict', async () => {
    const before = await decider.ask('GET', '/api/runs/KEYED-1-r2');
    const asked = await ask();
    expect(asked, JSON.stringify(asked.body)).toMatchObject({
      status: 201,
      body: { state: 'requested', requestedBy: 'i-sorbo', expired: false },
    });
    const granted = await decide(decider, asked.body.number, 'grant');
    expect(granted, JSON.stringify(granted.body)).toMatchObject({
      status: 200,
      body: { state: 'granted', by: 't-ibanez', version: 2, content: WANTED },
    });
    const after = await decider.ask('GET', '/api/runs/KEYED-1-r2');
    expect(after.body.verdicts).toEqual(before.body.verdicts);
    expect(JSON.stringify(after.body.verdicts)).toContain('does not conform');
  });

  it('of an external limit is refused for good, with why and what to do', async () => {
    const answer = await ask({ limit: { limit: 'OCF-W-7.2', revision: 1 } });
    expect(answer).toMatchObject({ status: 409, body: { code: 'state.conflict', pointer: '/limit' } });
    expect(answer.body.detail).toContain('never conceded');
    expect(answer.body.detail).toContain('governing body');
    expect(answer.body.action).toContain('drop the claim');
    const permit = await ask({ kind: 'deviation permit', limit: { limit: 'OCF-W-7.2', revision: 1 } });
    expect(permit).toMatchObject({ status: 409, body: { code: 'state.conflict', pointer: '/limit' } });
  });

  it.each([
    [{ limit: undefined }, 422, 'body.missing-field', '/limit'],
    [{ limit: { limit: 'OCF-W-7.3', revision: 1 } }, 422, 'body.not-found', '/limit'],
    [{ limit: { limit: 'no-such', revision: 1 } }, 422, 'body.not-found', '/limit/limit'],
    [{ lot: 'no-such' }, 422, 'body.not-found', '/lot'],
    [{ lot: 'SOUND' }, 409, 'state.conflict', '/limit'],
    [{ until: '2020-01-01' }, 422, 'body.range', '/until'],
    [{ bounds: { quantity: 91 } }, 422, 'body.range', '/bounds/quantity'],
    [{ bounds: {} }, 422, undefined, undefined],
    [{ risk: undefined }, 422, 'body.missing-field', '/risk'],
    [{ kind: 'deviation permit' }, 409, 'state.conflict', '/limit'],
  ])('with %j is refused', async (change, status, code, pointer) => {
    const answer = await ask(change);
    expect(answer.status, JSON.stringify(answer.body)).toBe(status);
    if (code !== undefined) expect(answer.body).toMatchObject({ code, pointer });
  });

  it('is granted by nobody who asked for it, not by the program and not by the database', async () => {
    const both = await service.signIn('asks-and-decides', ['define', 'decide']);
    const { number } = (await ask({}, both)).body;
    for (const move of ['grant', 'refusal'])
      expect(await decide(both, number, move)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    await expect(
      queryAs(
        service.database.owner,
        `insert into concession_version (lab_id, id, person_id, at, record_id, version, reason, state, content)
         select lab_id, gen_random_uuid(), person_id, now(), id, 2, 'because', 'granted', '{}'
         from concession where number = ${number}`,
      ),
    ).rejects.toMatchObject({ code: 'BB006' });
    expect(await decide(decider, number, 'refusal')).toMatchObject({ status: 200, body: { state: 'refused' } });
    expect(await decide(decider, number, 'grant', 2)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
  });

  it('is decided once though twelve decide at once', async () => {
    const { number } = (await ask()).body;
    const moves = Array.from({ length: 12 }, (_, n) => decide(decider, number, n % 2 ? 'grant' : 'refusal'));
    const answers = await Promise.all(moves);
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { status, body } of answers.filter((answer) => answer.status !== 200))
      expect([409, 412], JSON.stringify(body)).toContain(status);
    const { body } = await decider.ask('GET', `/api/concessions/${number}/history`);
    expect(body.items).toHaveLength(2);
  });

  it('is taken back by whoever asked for it or may grant it, and by nobody else', async () => {
    const { number } = (await ask()).body;
    const other = await service.signIn('b-ravenscroft');
    expect(await decide(other, number, 'withdrawal')).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    expect(await decide(designer, number, 'withdrawal')).toMatchObject({ status: 200, body: { state: 'withdrawn' } });
    expect(await decide(designer, number, 'withdrawal', 2)).toMatchObject({ status: 409 });
    const { body } = await designer.ask('GET', '/api/concessions?lot=KEYED-1&order=newest');
    expect(body.items[0]).toMatchObject({ number, state: 'withdrawn' });
  });

  it('is over after its last day', async () => {
    const { number } = (await ask()).body;
    expect((await decide(decider, number, 'grant')).body).toMatchObject({ expired: false });
    // As it will read on a later day: the content of evidence cannot be changed, so the clock of the answer is.
    const { concessionAnswer } = await import('./concession-answers.js');
    const { tables } = await import('@breakbook/records');
    const reader = service.records.read(service.lab.labId);
    const noun = await reader.maybe(tables.Concession, { number });
    if (!noun) throw new Error('the concession is kept');
    const version = await reader.latest(tables.ConcessionVersion, noun.id);
    expect(await concessionAnswer(reader, noun, version, '2099-12-31')).toMatchObject({ expired: false });
    expect(await concessionAnswer(reader, noun, version, '2100-01-01')).toMatchObject({ expired: true });
  });
});

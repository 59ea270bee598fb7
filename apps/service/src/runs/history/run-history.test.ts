import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../../tests/keyed-lot.js';
import { formOf } from '../../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../../tests/service.js';

const LOT = 'TOLD';
const bundle = keyedLot([{ kPa: 1900, validity: VALID }], { lot: LOT, planned: 3, spare: 4 });

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

/** A run that began, was measured and examined so many hours ago. */
async function recorded(n: number, hoursAgo: number): Promise<string> {
  const [model] = bundle.runs;
  if (!model) throw new Error('the lot has a run');
  const { files: _files, validity: _validity, ...run } = model;
  const at = new Date(Date.now() - hoursAgo * 3_600_000).toISOString();
  const { plan, revision } = bundle.plan;
  const body = formOf({
    ...run,
    run: `${LOT}-r${n}`,
    specimen: `${LOT}-${n}`,
    plan: { plan, revision },
    startedAt: at,
    readiness: { ...run.readiness, at },
    examination: { ...run.examination, at },
    measurements: run.measurements.map((one) => ({ ...one, at })),
  });
  const answer = await operator.ask('POST', '/api/runs', { body, headers: { 'idempotency-key': randomUUID() } });
  expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
  return `${LOT}-r${n}`;
}

const history = async (run: string) => (await reviewer.ask('GET', `/api/runs/${run}/history`)).body.items;

describe('what was said of a run', () => {
  it('is entered late where it comes more than a day after it happened, with both times beside it', async () => {
    const late = await history(await recorded(2, 25));
    expect(late.map(({ of, late: is }: { of: string; late: boolean }) => [of, is])).toEqual([
      ['run', true],
      ['measurement', true],
      ['examination', true],
    ]);
    for (const { happenedAt, enteredAt } of late)
      expect(Date.parse(enteredAt) - Date.parse(happenedAt)).toBeGreaterThan(24 * 3_600_000);
    for (const { late: is } of await history(await recorded(3, 23))) expect(is).toBe(false);
  });

  it('is corrected by a further version, with its reason and what it changed; the one before stays', async () => {
    const run = await recorded(4, 1);
    const seen = await operator.ask('GET', `/api/runs/${run}`);
    const [first] = seen.body.measurements;
    const corrected = await operator.ask('POST', `/api/runs/${run}/measurements`, {
      headers: { 'if-match': seen.headers.get('etag') ?? '' },
      body: {
        reason: 'read off the wrong gauge',
        measurements: [
          {
            record: first.record,
            measurement: {
              ...first.measurement,
              quantity: { value: 1750, unit: 'kPa', entered: { text: '1750', unit: 'kPa' } },
            },
          },
        ],
      },
    });
    expect(corrected, JSON.stringify(corrected.body)).toMatchObject({ status: 201 });
    const measured = (await history(run)).filter(({ of }: { of: string }) => of === 'measurement');
    expect(measured).toMatchObject([
      { version: 1, differences: [] },
      { version: 2, by: 'b-ravenscroft', reason: 'read off the wrong gauge', name: 'burstPressure' },
    ]);
    const { differences } = measured[1];
    expect(differences).toContainEqual(
      expect.objectContaining({
        pointer: '/quantity/value',
        kept: String(first.measurement.quantity.value),
        now: '1750',
      }),
    );
  });
});

describe('competence', () => {
  const [model] = bundle.runs;
  const say = (by: SignedInCaller, person: string, body: object) =>
    by.ask('POST', `/api/people/${person}/competences`, {
      body: { method: model?.method, revision: model?.methodRevision, note: 'seen at the rig', ...body },
    });
  const flags = async (run: string) => (await reviewer.ask('GET', `/api/runs/${run}/reviews`)).body.outsideCompetence;

  it('is said by another person, with an end where it is an authorisation, and each word stays', async () => {
    expect(await say(reviewer, 'b-ravenscroft', { level: 'trained' })).toMatchObject({ status: 201 });
    expect(await say(reviewer, 'a-grossmann', { level: 'trained' })).toMatchObject({
      status: 403,
      body: { code: 'duty.conflict' },
    });
    for (const [change, pointer] of [
      [{ level: 'authorised' }, '/until'],
      [{ level: 'trained', until: '2099-01-01' }, '/until'],
      [{ level: 'trained', method: 'no-such' }, '/method'],
      [{ level: 'trained', revision: 99 }, '/revision'],
    ] as const)
      expect(await say(reviewer, 'b-ravenscroft', change), pointer).toMatchObject({ status: 422, body: { pointer } });
  });

  it('a run outside it is flagged for the reviewer, with why; one within is not', async () => {
    expect(await flags(`${LOT}-r1`)).toContain('nothing was recorded of it by then');
    const run = await recorded(5, 0);
    expect(await flags(run)).toContain('what was recorded is "trained"');
    await say(reviewer, 'b-ravenscroft', { level: 'authorised', until: '2099-01-01' });
    expect(await flags(run)).toBeUndefined();
    await say(reviewer, 'b-ravenscroft', { level: 'authorised', until: '2020-01-01' });
    expect(await flags(run)).toContain('the authorisation ended on 2020-01-01');
    await say(reviewer, 'b-ravenscroft', { level: 'withdrawn' });
    expect(await flags(run)).toContain('withdrawn');
    const { items } = (await reviewer.ask('GET', '/api/people/b-ravenscroft/competences')).body;
    expect(items.map(({ level, current }: { level: string; current: boolean }) => [level, current])).toEqual([
      ['trained', false],
      ['authorised', false],
      ['authorised', false],
      ['withdrawn', true],
    ]);
  });
});

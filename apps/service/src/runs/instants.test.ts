import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepLot, sendBurst, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;
let unused = 0;

beforeAll(async () => {
  service = await startTestService();
  await keepLot(service.records, 10);
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
}, 120_000);
afterAll(() => service.close());

async function recorded(): Promise<string> {
  const specimen = specimenKey(++unused);
  return `/api/runs/${(await sendBurst(operator, specimen)).body.run}`;
}
const seen = async (at: string) => ({ 'if-match': (await operator.ask('GET', at)).headers.get('etag') ?? '' });
const move = async (at: string, body: object, by = operator) =>
  by.ask('POST', `${at}/instants`, { body, headers: await seen(at) });
const failure = { instant: 'failure', at: 10, reason: 'a crack is heard on the video' };
const burstIn = (body: { reading: { characteristics: { characteristic: string; value: { value: number } }[] } }) =>
  body.reading.characteristics.find(({ characteristic }) => characteristic === 'burstPressure');

describe('a moment of a run that is moved', () => {
  it('is what the run is read by, with what was proposed beside it, in a new version and one ledger entry', async () => {
    const at = await recorded();
    const before = await operator.ask('GET', at);
    const [entry] = (await reviewer.ask('GET', '/api/ledger?order=newest&limit=1')).body.items;
    const answer = await move(at, failure);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 201,
      body: {
        version: before.body.version + 1,
        run: { instants: [{ instant: 'failure', at: 10, person: 'b-ravenscroft' }] },
        reading: { proposedValidity: expect.not.stringMatching(/^valid$/) },
      },
    });
    // The ramp of the made file: 2 bar a second from its second 2 on, so 16 bar at its second 10.
    expect(Math.abs((burstIn(answer.body)?.value.value ?? 0) - 1600)).toBeLessThan(10);
    expect((burstIn(before.body)?.value.value ?? 0) - (burstIn(answer.body)?.value.value ?? 0)).toBeGreaterThan(400);
    const [now, last] = (await reviewer.ask('GET', '/api/ledger?order=newest&limit=2')).body.items;
    expect(last.number).toBe(entry.number);
    expect(now).toMatchObject({ action: 'moment of the record moved', reason: failure.reason });
    // Read again from its bytes it is the same, and its sensors are still found by their runs.
    expect((await operator.ask('GET', at)).body.reading).toEqual(answer.body.reading);
    const [calibration] = answer.body.reading.calibrations;
    const touched = await reviewer.ask('GET', `/api/sensors/${calibration.sensor}/runs`);
    expect(touched.body.items.map(({ run }: { run: string }) => run)).toContain(answer.body.run.run);
  });

  it('is moved again in place of the first time, and left as proposed after all', async () => {
    const at = await recorded();
    const before = (await operator.ask('GET', at)).body;
    expect(await move(at, { ...failure, at: 'as proposed' })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict' },
    });
    await move(at, failure);
    const again = await move(at, { ...failure, at: 9, loss: 'leak', reason: 'the hiss begins earlier' });
    expect(again.body.run.instants).toMatchObject([{ at: 9, loss: 'leak' }]);
    expect(burstIn(again.body)?.value).toMatchObject({ kind: 'atLeast' });
    const back = await move(at, { instant: 'failure', at: 'as proposed', reason: 'it was another specimen’s video' });
    expect(back.body.run).not.toHaveProperty('instants');
    expect(back.body.reading).toEqual(before.reading);
  });

  it('is refused outside the record, without a reason, and where it was seen otherwise', async () => {
    const at = await recorded();
    expect(await move(at, { ...failure, at: 100 })).toMatchObject({
      status: 422,
      body: { code: 'body.range', pointer: '/at', expected: '0 to 12.995 s' },
    });
    expect(await move(at, { ...failure, instant: 'contact ends' })).toMatchObject({
      status: 422,
      body: { code: 'body.enum', pointer: '/instant' },
    });
    const { reason: _, ...unreasoned } = failure;
    expect(await move(at, unreasoned)).toMatchObject({ status: 422, body: { pointer: '/reason' } });
    const stale = await seen(at);
    await move(at, failure);
    expect(await operator.ask('POST', `${at}/instants`, { body: failure, headers: stale })).toMatchObject({
      status: 412,
      body: { code: 'version.stale' },
    });
  });

  it('keeps whoever moved it from deciding, and stands once validity is decided', async () => {
    const at = await recorded();
    const both = await service.signIn('both-duties', ['record', 'review']);
    expect((await move(at, failure, both)).status).toBe(201);
    const decide = async (by: SignedInCaller) =>
      by.ask('POST', `${at}/validity`, { body: { validity: 'valid' }, headers: await seen(at) });
    expect(await decide(both)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    expect(await decide(reviewer)).toMatchObject({ status: 201, body: { validity: 'valid' } });
    expect(await move(at, { ...failure, at: 11 })).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
  });
});

it('leaves records that hold, entry by entry and byte by byte', async () => {
  const reader = service.records.read(service.lab.labId);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
});

import { createHash, randomUUID } from 'node:crypto';
import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { burstFile, burstRun, formOf, keepLot, type SentRun, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;
let unused = 0;

beforeAll(async () => {
  service = await startTestService();
  await keepLot(service.records, 60);
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
}, 120_000);
afterAll(() => service.close());

/** A specimen that no other test has touched. */
const fresh = () => specimenKey(++unused);

const send = (run: SentRun, files: Record<string, string | Uint8Array>, key = randomUUID(), by = operator) =>
  by.ask('POST', '/api/runs', { body: formOf(run, files), headers: { 'idempotency-key': key } });

async function recorded(change: Partial<SentRun> = {}): Promise<string> {
  const specimen = fresh();
  const answer = await send(burstRun(specimen, change), { 'log.csv': burstFile(specimen) });
  expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
  return answer.body.run;
}

describe('a run that is sent', () => {
  it('is kept with its file bit for bit, its flags told, and what was read of it', async () => {
    const specimen = fresh();
    const text = burstFile(specimen);
    const answer = await send(burstRun(specimen), { 'log ø.csv': text });
    expect(answer.status).toBe(201);
    expect(answer.headers.get('location')).toBe(`/api/runs/run-${specimen}`);
    expect(answer.body).toMatchObject({ run: `run-${specimen}`, specimen, destroyed: true, flags: expect.any(Array) });

    const run = await operator.ask('GET', answer.headers.get('location') ?? '');
    const sha256 = createHash('sha256').update(text).digest();
    expect(run.body).toMatchObject({
      recordedBy: 'b-ravenscroft',
      validity: 'not decided',
      files: [{ n: 1, name: 'log ø.csv', size: text.length, sha256: sha256.toString('hex') }],
    });
    const burst = run.body.results.find((one: { characteristic: string }) => one.characteristic === 'burstPressure');
    // The ramp of the made file ends at 21 bar = 2100 kPa, by its own formula; corrected by its calibration and zero.
    expect(burst.value.value).toBeGreaterThan(2050);
    expect(burst.value.value).toBeLessThan(2150);

    const file = await operator.fetch(`/api/runs/run-${specimen}/files/1`);
    expect(await file.text()).toBe(text);
    expect(file.headers.get('repr-digest')).toBe(`sha-256=:${sha256.toString('base64')}:`);
    expect(file.headers.get('content-disposition')).toBe("attachment; filename*=UTF-8''log%20%C3%B8.csv");

    const trace = await operator.ask('GET', `/api/runs/run-${specimen}/trace`);
    expect(trace.body.trace.channels[0]).toMatchObject({ channel: 'rimPressure' });
  });

  it('is kept with a flag where its rig’s clock is ahead, told again whenever it is read again', async () => {
    const { examination, ...rest } = burstRun(fresh());
    const startedAt = new Date(Date.now() + 60 * 60_000).toISOString();
    const file = burstFile(rest.specimen).replace(/(?<=# started: ).*/, startedAt);
    const answer = await send({ ...rest, startedAt }, { 'log.csv': file });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 201,
      body: {
        proposedValidity: expect.not.stringMatching(/^valid$/),
        flags: [
          { code: 'meta.date', file: 'log.csv', line: 3, found: startedAt },
          { code: 'meta.date', pointer: '/startedAt', found: startedAt, action: expect.stringContaining('clock') },
        ],
      },
    });
    const at = `/api/runs/${rest.run}`;
    const seen = { 'if-match': (await operator.ask('GET', at)).headers.get('etag') ?? '' };
    const later = { ...examination, at: new Date(Date.now() + 2 * 60 * 60_000).toISOString() };
    const examined = await operator.ask('POST', `${at}/examination`, { body: { examination: later }, headers: seen });
    expect(examined, JSON.stringify(examined.body)).toMatchObject({ status: 201 });
    expect(examined.body.reading.flags.map(({ code }: { code: string }) => code)).toEqual(['meta.date', 'meta.date']);
    // When it came in is the lab's to say, never the sender's.
    const told = await send({ ...burstRun(fresh()), receivedAt: startedAt } as SentRun, { 'log.csv': file });
    expect(told).toMatchObject({ status: 422, body: { code: 'body.unknown-field', pointer: '/receivedAt' } });
  });

  it('whose numbers are those of another run in other bytes is flagged, and so is the other', async () => {
    const [first, second] = [fresh(), fresh()];
    const text = burstFile(first);
    expect((await send(burstRun(first), { 'log.csv': text })).body.flags).toEqual([]);
    // Another name, another specimen, zeros behind the point: no byte-wise duplicate, but the same numbers.
    const copied = text.replaceAll(first, second).replaceAll(',21.80\n', ',21.8\n');
    const answer = await send(burstRun(second), { 'another.csv': copied });
    const told = (file: string, run: string) => ({
      code: 'run.near-duplicate',
      file,
      detail: expect.stringContaining(`of run run-${run}`),
    });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 201,
      body: { flags: [told('another.csv', first)] },
    });
    expect(answer.body.proposedValidity).not.toBe('valid');
    for (const [run, file, other] of [
      [first, 'log.csv', second],
      [second, 'another.csv', first],
    ] as const) {
      const { reading } = (await operator.ask('GET', `/api/runs/run-${run}`)).body;
      expect(reading.flags).toMatchObject([told(file, other)]);
      expect(reading.flags).toHaveLength(1);
      expect(reading.proposedValidity).not.toBe('valid');
    }
    expect(await recorded()).toBeDefined();
  });

  it('says nothing of limits and verdicts before its validity is decided, and both afterwards', async () => {
    const run = await recorded();
    const before = await reviewer.ask('GET', `/api/runs/${run}`);
    expect(JSON.stringify(before.body)).not.toMatch(/verdict|"limits?"|margin|conform/i);

    const decided = await reviewer.ask('POST', `/api/runs/${run}/validity`, {
      body: { validity: 'valid' },
      headers: { 'if-match': before.headers.get('etag') ?? '' },
    });
    expect(decided, JSON.stringify(decided.body)).toMatchObject({ status: 201, body: { validity: 'valid' } });
    expect(decided.body.verdicts.length).toBeGreaterThan(0);
    expect(decided.body.limits.length).toBeGreaterThan(0);
  });

  it('has its validity decided only by whoever gave their passphrase within five minutes', async () => {
    const late = await service.signIn('late-reviewer', ['review']);
    const at = `/api/runs/${await recorded()}`;
    const seen = { 'if-match': (await late.ask('GET', at)).headers.get('etag') ?? '' };
    const decide = () => late.ask('POST', `${at}/validity`, { body: { validity: 'valid' }, headers: seen });
    await queryAs(
      service.database.owner,
      `update session set confirmed_at = confirmed_at - interval '5 minutes' where person_id = '${late.personId}'`,
    );
    expect(await decide()).toMatchObject({ status: 401, body: { code: 'auth.again' } });
    expect((await late.ask('GET', at)).body.validity, 'all else goes on').toBe('not decided');
    await late.again();
    expect(await decide()).toMatchObject({ status: 201, body: { validity: 'valid' } });
  });

  it('makes one run of twenty identical uploads at once', async () => {
    const specimen = fresh();
    const key = randomUUID();
    const text = burstFile(specimen);
    const answers = await Promise.all(
      Array.from({ length: 20 }, () => send(burstRun(specimen), { 'log.csv': text }, key)),
    );
    const taken = answers.filter(({ status }) => status === 201);
    expect(taken.length).toBeGreaterThanOrEqual(1);
    expect(new Set(taken.map(({ body }) => body.number)).size).toBe(1);
    for (const { status, body } of answers)
      if (status !== 201) expect({ status, code: body.code }).toEqual({ status: 409, code: 'idempotency.in-progress' });

    const again = await send(burstRun(specimen), { 'log.csv': text }, key);
    expect(again).toMatchObject({ status: 201, body: taken[0]?.body });
    const reader = service.records.read(service.lab.labId);
    expect(await reader.find(tables.Run, { key: `run-${specimen}` })).toHaveLength(1);
    expect(await reader.find(tables.UnreadFile, {})).toHaveLength(0);

    const other = await send(burstRun(specimen, { deviations: ['Water was cold.'] }), { 'log.csv': text }, key);
    expect(other).toMatchObject({ status: 422, body: { code: 'idempotency.mismatch' } });
  });

  it('destroys its specimen once: of two people at once one is told which run it was, and the bytes are kept', async () => {
    const colleague = await service.signIn('second-operator', ['record']);
    const specimen = fresh();
    const runOf = (name: string) => burstRun(specimen, { run: `${name}-${specimen}` });
    const answers = await Promise.all([
      send(runOf('mine'), { 'mine.csv': burstFile(specimen, 2600) }, randomUUID(), operator),
      send(runOf('theirs'), { 'theirs.csv': burstFile(specimen, 2700) }, randomUUID(), colleague),
    ]);
    const [won, lost] = answers.sort((a, b) => a.status - b.status);
    expect(won?.status).toBe(201);
    expect(lost).toMatchObject({ status: 409, body: { code: 'specimen.destroyed', stored: 'unread' } });
    expect(lost?.body.detail).toContain(won?.body.run);

    const waiting = await operator.ask('GET', `/api/unread/${lost?.body.unreadFileId}`);
    expect(waiting.body).toMatchObject({ state: 'waiting', parts: [{ name: expect.stringMatching(/mine|theirs/) }] });
  });

  it('is a rig token’s own only', async () => {
    // The token's routes are tested where they live; here the actor the door makes of one is what counts.
    const specimen = fresh();
    const admin = await service.signIn('keeper-of-keys', ['administer']);
    await admin.again();
    const made = await admin.ask('POST', '/api/rigs/R2/tokens', { body: { note: 'hold rig', days: 30 } });
    expect(made, JSON.stringify(made.body)).toMatchObject({ status: 201 });
    const rig = service.withToken(made.body.token);
    const answer = await rig.ask('POST', '/api/runs', {
      body: formOf(burstRun(specimen), { 'log.csv': burstFile(specimen) }),
      headers: { 'idempotency-key': randomUUID() },
    });
    expect(answer).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
  });
});

describe('what is said of a run later', () => {
  it('is a further version with its reason, under the version that was seen', async () => {
    const { examination, ...rest } = burstRun(fresh());
    const specimen = rest.specimen;
    expect((await send(rest, { 'log.csv': burstFile(specimen) })).status).toBe(201);
    const at = `/api/runs/${rest.run}`;
    const first = await operator.ask('GET', at);

    expect(await operator.ask('POST', `${at}/examination`, { body: { examination } })).toMatchObject({
      status: 428,
      body: { code: 'version.required' },
    });
    const seen = { 'if-match': first.headers.get('etag') ?? '' };
    const examined = await operator.ask('POST', `${at}/examination`, { body: { examination }, headers: seen });
    expect(examined, JSON.stringify(examined.body)).toMatchObject({ status: 201, body: { version: 2 } });
    expect(await operator.ask('POST', `${at}/examination`, { body: { examination }, headers: seen })).toMatchObject({
      status: 412,
      body: { code: 'version.stale' },
    });
    const corrected = { ...examination, note: 'The left flange went first.' };
    const now = { 'if-match': examined.headers.get('etag') ?? '' };
    expect(
      await operator.ask('POST', `${at}/examination`, { body: { examination: corrected }, headers: now }),
    ).toMatchObject({ status: 422, body: { code: 'body.missing-field', pointer: '/reason' } });
    const third = await operator.ask('POST', `${at}/examination`, {
      body: { examination: corrected, reason: 'looked again under the lens' },
      headers: now,
    });
    expect(third.body).toMatchObject({ version: 3, run: { examination: { note: 'The left flange went first.' } } });

    const reader = service.records.read(service.lab.labId);
    const { id } = await reader.named(tables.Run, rest.run);
    expect((await reader.history(tables.Examination, id)).map(({ reason }) => reason)).toEqual([
      null,
      'looked again under the lens',
    ]);
    expect(await reader.find(tables.Destruction, { runId: id })).toHaveLength(1);
    expect(await reader.find(tables.Reading, { runId: id })).toHaveLength(3);
  });

  it('may be a measurement, corrected by its record', async () => {
    const run = await recorded();
    const measurement = {
      of: 'fluidTemperature',
      quantity: { value: 20, unit: 'Cel' },
      instrument: 'T-07',
      person: 'b-ravenscroft',
      at: '2026-09-28T07:00:00Z',
    };
    const first = await operator.ask('GET', `/api/runs/${run}`);
    const keyed = await operator.ask('POST', `/api/runs/${run}/measurements`, {
      body: { measurements: [{ measurement }] },
      headers: { 'if-match': first.headers.get('etag') ?? '' },
    });
    expect(keyed.body.measurements).toMatchObject([{ version: 1, measurement }]);
    const record = keyed.body.measurements[0].record;
    const corrected = { ...measurement, quantity: { value: 21, unit: 'Cel' } };
    const again = await operator.ask('POST', `/api/runs/${run}/measurements`, {
      body: { measurements: [{ record, measurement: corrected }], reason: 'misread' },
      headers: { 'if-match': keyed.headers.get('etag') ?? '' },
    });
    expect(again.body.measurements).toMatchObject([{ record, version: 2, measurement: corrected }]);
    const foreign = await operator.ask('POST', `/api/runs/${run}/measurements`, {
      body: { measurements: [{ record: randomUUID(), measurement }], reason: 'misread' },
      headers: { 'if-match': again.headers.get('etag') ?? '' },
    });
    expect(foreign).toMatchObject({ status: 422, body: { code: 'body.not-found' } });
  });

  it('is not said any more once validity is decided; and who recorded never decides', async () => {
    const both = await service.signIn('both-duties', ['record', 'review']);
    const specimen = fresh();
    const body = burstRun(specimen);
    await send(body, { 'log.csv': burstFile(specimen) }, randomUUID(), both);
    const at = `/api/runs/${body.run}`;
    const seen = { 'if-match': (await both.ask('GET', at)).headers.get('etag') ?? '' };
    const own = await both.ask('POST', `${at}/validity`, { body: { validity: 'valid' }, headers: seen });
    expect(own).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    // Named as the operator, though somebody else sent it.
    const named = await service.signIn('b-ravenscroft');
    expect(await named.ask('POST', `${at}/validity`, { body: { validity: 'valid' }, headers: seen })).toMatchObject({
      status: 403,
    });

    expect(
      await reviewer.ask('POST', `${at}/validity`, { body: { validity: 'invalid' }, headers: seen }),
    ).toMatchObject({ status: 422, body: { pointer: '/reason' } });
    const decisions = await Promise.all(
      ['valid', 'valid with deviation'].map((validity) =>
        reviewer.ask('POST', `${at}/validity`, { body: { validity }, headers: seen }),
      ),
    );
    expect(decisions.map(({ status }) => status).sort()).toEqual([201, 412]);

    const etag = (await reviewer.ask('GET', at)).headers.get('etag') ?? '';
    const late = await operator.ask('POST', `${at}/examination`, {
      body: { examination: body.examination, reason: 'second thoughts' },
      headers: { 'if-match': etag },
    });
    expect(late).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
  });

  it('a run made void frees its specimen', async () => {
    const specimen = fresh();
    await send(burstRun(specimen), { 'log.csv': burstFile(specimen) });
    const at = `/api/runs/run-${specimen}`;
    const seen = { 'if-match': (await reviewer.ask('GET', at)).headers.get('etag') ?? '' };
    const voided = await reviewer.ask('POST', `${at}/validity`, {
      body: { validity: 'void', note: 'recorded under the wrong specimen' },
      headers: seen,
    });
    expect(voided.status).toBe(201);
    const again = await send(burstRun(specimen, { run: `second-${specimen}` }), {
      'log.csv': burstFile(specimen, 2650),
    });
    expect(again, JSON.stringify(again.body)).toMatchObject({ status: 201 });
  });
});

describe('an unread file', () => {
  it('is read again for the right specimen, once', async () => {
    const destroyed = fresh();
    const right = fresh();
    const text = burstFile(right);
    await send(burstRun(destroyed), { 'log.csv': burstFile(destroyed) });
    const refused = await send(burstRun(destroyed, { run: 'wrong-one' }), { 'log.csv': text });
    expect(refused).toMatchObject({ status: 409, body: { code: 'specimen.destroyed', stored: 'unread' } });
    const at = `/api/unread/${refused.body.unreadFileId}`;

    const list = await operator.ask('GET', '/api/unread?order=newest');
    expect(list.body.items[0]).toMatchObject({ id: refused.body.unreadFileId, sentBy: 'b-ravenscroft' });
    const read = await operator.ask('POST', `${at}/read`, { body: burstRun(right) });
    expect(read, JSON.stringify(read.body)).toMatchObject({ status: 201, body: { run: `run-${right}` } });
    expect((await operator.ask('GET', at)).body).toMatchObject({ state: 'read', run: `run-${right}` });
    expect(await operator.ask('POST', `${at}/read`, { body: burstRun(fresh()) })).toMatchObject({
      status: 409,
      body: { code: 'unread.closed' },
    });
  });

  it('is closed by itself when the same bytes are sent again and taken', async () => {
    const destroyed = fresh();
    const right = fresh();
    const text = burstFile(right);
    await send(burstRun(destroyed), { 'log.csv': burstFile(destroyed) });
    const refused = await send(burstRun(destroyed, { run: 'wrong-two' }), { 'log.csv': text });
    expect((await send(burstRun(right), { 'log.csv': text })).status).toBe(201);
    expect((await operator.ask('GET', `/api/unread/${refused.body.unreadFileId}`)).body).toMatchObject({
      state: 'read',
      run: `run-${right}`,
    });
  });

  it('is discarded by a second person, with a reason', async () => {
    const destroyed = fresh();
    await send(burstRun(destroyed), { 'log.csv': burstFile(destroyed) });
    const refused = await send(burstRun(destroyed, { run: 'wrong-three' }), { 'log.csv': burstFile(fresh(), 2900) });
    const at = `/api/unread/${refused.body.unreadFileId}/discard`;
    expect(await operator.ask('POST', at, { body: { reason: 'a try-out' } })).toMatchObject({
      status: 403,
      body: { code: 'duty.conflict' },
    });
    expect(await reviewer.ask('POST', at, { body: {} })).toMatchObject({ status: 422 });
    expect(await reviewer.ask('POST', at, { body: { reason: 'a try-out of the rig' } })).toMatchObject({
      status: 200,
      body: { state: 'discarded', closedBy: 'a-grossmann', reason: 'a try-out of the rig' },
    });
  });
});

it('leaves records that hold, entry by entry and byte by byte', async () => {
  const reader = service.records.read(service.lab.labId);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
});

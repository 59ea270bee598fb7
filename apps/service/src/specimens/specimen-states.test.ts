import { randomUUID } from 'node:crypto';
import { tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { proposeAndApprove } from '../../../../tests/approved.js';
import { burstFile, burstRun, formOf, keepLot, type SentRun, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let bundle: Awaited<ReturnType<typeof keepLot>>;
let operator: SignedInCaller;
let stores: SignedInCaller;
let reviewer: SignedInCaller;
let unused = 0;
/** A specimen that no other test has touched. */
const fresh = () => specimenKey(++unused);

beforeAll(async () => {
  service = await startTestService();
  bundle = await keepLot(service.records, 60);
  operator = await service.signIn('b-ravenscroft');
  stores = await service.signIn('d-zunic');
  reviewer = await service.signIn('a-grossmann');
}, 120_000);
afterAll(() => service.close());

/** It held at the limit of the rig, and was found whole. */
const SURVIVED: Partial<SentRun> = {
  examination: {
    endReason: 'rig limit reached',
    modes: [],
    partSound: 'sound',
    person: 'b-ravenscroft',
    at: '2026-09-28T07:04:55Z',
  },
};
let sent = 0;
function send(specimen: string, change: Partial<SentRun> = {}) {
  const run = `${specimen}-${++sent}`;
  return operator.ask('POST', '/api/runs', {
    // No two files are alike, whatever specimen they are of.
    body: formOf(burstRun(specimen, { run, ...change }), { 'log.csv': burstFile(specimen, 2600 + sent) }),
    headers: { 'idempotency-key': randomUUID() },
  });
}

async function move(by: SignedInCaller, specimen: string, what: string) {
  const seen = await by.ask('GET', `/api/specimens/${specimen}/states`);
  return by.ask('POST', `/api/specimens/${specimen}/states`, {
    headers: { 'if-match': seen.headers.get('etag') ?? '' },
    body: { move: what, note: `${what}: 24 h at 23 Cel, rack 4` },
  });
}

const fateOf = async (specimen: string) => (await stores.ask('GET', `/api/specimens/${specimen}`)).body;

async function decide(run: string, validity: string, note?: string) {
  const seen = await reviewer.ask('GET', `/api/runs/${run}`);
  return reviewer.ask('POST', `/api/runs/${run}/validity`, {
    headers: { 'if-match': seen.headers.get('etag') ?? '' },
    body: { validity, ...(note === undefined ? {} : { note }) },
  });
}

describe('a move of a specimen', () => {
  it('says whose a move is, and which version it follows', async () => {
    const specimen = fresh();
    expect(await move(operator, specimen, 'retain')).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
    expect((await move(operator, specimen, 'condition')).status).toBe(200);
    const address = `/api/specimens/${specimen}/states`;
    const body = { move: 'make ready', note: 'trued, 24 h at 23 Cel' };
    expect(await stores.ask('POST', address, { body })).toMatchObject({ status: 428 });
    const answers = await Promise.all(
      Array.from({ length: 5 }, () => stores.ask('POST', address, { headers: { 'if-match': '"2"' }, body })),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409, 409]);
  });

  it('lets no run be made with one that is put away, until it is taken out', async () => {
    const specimen = fresh();
    await move(stores, specimen, 'retain');
    expect(await send(specimen)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/specimen', found: 'retained', stored: 'unread' },
    });
    await move(stores, specimen, 'take out');
    expect((await send(specimen)).status).toBe(201);
    expect(await fateOf(specimen)).toMatchObject({ state: 'destroyed' });
    // The pieces are kept, and taken out as pieces.
    expect((await move(stores, specimen, 'retain')).body).toMatchObject({ state: 'retained' });
    expect((await move(stores, specimen, 'take out')).body).toMatchObject({ state: 'destroyed' });
  });
});

describe('a survivor', () => {
  it('is marked stressed, and not run again where the plan does not say so', async () => {
    const specimen = fresh();
    const first = await send(specimen, SURVIVED);
    expect(first, JSON.stringify(first.body)).toMatchObject({ status: 201, body: { destroyed: false } });
    expect(await fateOf(specimen)).toMatchObject({ state: 'received', stressedIn: [first.body.run] });
    for (const change of [SURVIVED, {}])
      expect(await send(specimen, change)).toMatchObject({
        status: 409,
        body: {
          code: 'state.conflict',
          pointer: '/specimen',
          detail: expect.stringContaining(`was loaded in run ${first.body.run}`),
          stored: 'unread',
        },
      });
  });

  it('is run again where the run before is void, and that is then not undone', async () => {
    const specimen = fresh();
    const first = (await send(specimen)).body.run;
    expect(await decide(first, 'void', 'recorded for the wrong specimen')).toMatchObject({ status: 201 });
    expect((await fateOf(specimen)).destroyedIn).toBeUndefined();
    const second = await send(specimen);
    expect(second, JSON.stringify(second.body)).toMatchObject({ status: 201 });
    expect(await decide(first, 'valid', 'it was right after all')).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/validity', detail: expect.stringContaining(second.body.run) },
    });
  });

  it('is run once, when several are recorded in the same moment', async () => {
    const specimen = fresh();
    const answers = await Promise.all(Array.from({ length: 6 }, (_, n) => send(specimen, n % 2 === 0 ? SURVIVED : {})));
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
    for (const { status, body } of answers.filter((one) => one.status !== 201)) {
      expect(status).toBe(409);
      expect(['state.conflict', 'specimen.destroyed']).toContain(body.code);
    }
    const reader = service.records.read(service.lab.labId);
    const { id: specimenId } = await reader.named(tables.Specimen, specimen);
    expect(await reader.find(tables.Run, { specimenId })).toHaveLength(1);
    expect(await reader.find(tables.SpecimenUse, { specimenId })).toHaveLength(1);
  }, 60_000);

  it('is run again under a line of its plan that takes the survivors of the first, in that order only', async () => {
    const { plan } = bundle;
    const [line] = plan.lines;
    if (!line) throw new Error('The plan has no line.');
    const designer = await service.signIn('i-sorbo');
    const quality = await service.signIn('t-ibanez');
    const revision = plan.revision + 1;
    await proposeAndApprove(designer, quality, `/api/plans/${plan.plan}/revisions`, {
      reason: 'survivors go on to the second line',
      content: { ...plan, revision, lines: [...plan.lines, { ...line, line: 'A2', survivorsOf: ['A'] }] },
    });
    const under = { plan: { plan: plan.plan, revision } };
    const specimen = fresh();
    expect((await send(specimen, { ...under, ...SURVIVED })).status).toBe(201);
    expect(await send(specimen, { ...under, ...SURVIVED })).toMatchObject({ status: 409 });
    const second = await send(specimen, { ...under, planLine: 'A2' });
    expect(second, JSON.stringify(second.body)).toMatchObject({ status: 201 });

    const other = fresh();
    expect((await send(other, { ...under, planLine: 'A2', ...SURVIVED })).status).toBe(201);
    expect(await send(other, under), 'the other way round').toMatchObject({ status: 409 });

    // Whatever the program does, the database takes no run out of order.
    const reader = service.records.read(service.lab.labId);
    const kept = await reader.named(tables.Specimen, other);
    const [before] = await reader.find(tables.Run, { specimenId: kept.id });
    const body = before && (await reader.latest(tables.RunVersion, before.id));
    const lines = await reader.find(tables.PlanLine, { key: 'A' });
    const forged = (afterRunId: string | null) =>
      service.records.change(service.lab, 'forged', async (rows) => {
        const run = await rows.add(tables.Run, { key: `forged-${afterRunId}`, specimenId: kept.id });
        const { planLineId: _, id: _id, recordId: _r, version: _v, ...rest } = body as tables.RunVersion;
        await rows.addVersion(tables.RunVersion, run.id, { ...rest, planLineId: lines.at(-1)?.id ?? '' });
        await rows.add(tables.SpecimenUse, { specimenId: kept.id, runId: run.id, afterRunId });
      });
    await expect(forged(before?.id ?? null)).rejects.toThrow(/takes no survivor/);
    await expect(forged(null)).rejects.toThrow(/names a run of it, and the run before that/);
  }, 60_000);
});

import { randomUUID } from 'node:crypto';
import { tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { approve, proposeAndApprove } from '../../../../tests/approved.js';
import { burstFile, burstRun, formOf, keepLot, sendBurst, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import { DEFINITIONS, type DefinitionWord } from './definitions.js';

let service: TestService;
let bundle: Awaited<ReturnType<typeof keepLot>>;
let designer: SignedInCaller;
let quality: SignedInCaller;
let third: SignedInCaller;
let office: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  bundle = await keepLot(service.records, 4);
  designer = await service.signIn('i-sorbo');
  quality = await service.signIn('t-ibanez');
  third = await service.signIn('third-definer', ['define']);
  office = await service.signIn('defining-office', ['define', 'administer']);
}, 120_000);
afterAll(() => service.close());

const day = (offset: number) => new Date(Date.now() + offset * 86_400_000).toISOString().slice(0, 10);
const YESTERDAY = day(-1);

/** Of each kind a thing that came with the lot folder: its address, and its content as a next revision says it. */
const THINGS: Record<DefinitionWord, { address: string; content: (inForceFrom: string) => object }> = {
  plan: { address: 'plans/D42-PP', content: (approvedOn) => ({ ...bundle.plan, approvedOn }) },
  layout: { address: 'layouts/R1-log', content: () => ({ ...bundle.layouts[0] }) },
  method: { address: 'methods/HOLD-TYRE', content: (inForceFrom) => ({ ...named('HOLD-TYRE'), inForceFrom }) },
  limit: { address: 'limits/OCF-W-7.4', content: (inForceFrom) => ({ ...limitNamed('OCF-W-7.4'), inForceFrom }) },
};
const named = (key: string) => bundle.methods.find(({ method }) => method === key);
const limitNamed = (key: string) => bundle.limits.find(({ limit }) => limit === key);

/** Proposes the next revision; answers its number and that of its proposal. */
async function proposed(word: DefinitionWord, inForceFrom = YESTERDAY, by = designer) {
  const { address, content } = THINGS[word];
  const { body: last } = await by.ask('GET', `/api/${address}`);
  const revision: number = last.content.revision + 1;
  const answer = await by.ask('POST', `/api/${address}/revisions`, {
    body: { reason: 'revised in a test', content: { ...content(inForceFrom), revision } },
  });
  expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201, body: { standing: { state: 'proposed' } } });
  return { revision, proposal: answer.body.standing.proposal as number };
}

async function standingOf(word: DefinitionWord, revision: number) {
  return (await designer.ask('GET', `/api/${THINGS[word].address}/revisions/${revision}`)).body.standing;
}

// Plans first: they name the limits in force on their day, which the walk of the limits replaces.
const WORDS: DefinitionWord[] = ['plan', 'layout', 'method', 'limit'];

it('walks all there are', () => {
  expect([...WORDS].sort()).toEqual(Object.keys(DEFINITIONS).sort());
});

describe.each(WORDS)('a revision of a %s', (word) => {
  it('that came with a lot folder counts as approved', async () => {
    const { body } = await designer.ask('GET', `/api/${THINGS[word].address}/revisions`);
    expect(body.items[0].standing.state).toMatch(/^(in force|approved)$/);
    expect(body.items[0].standing.proposal).toBeUndefined();
  });

  it('is approved by another person than proposed it, by whom it names, and as it was shown', async () => {
    const { proposal, revision } = await proposed(word);
    const waiting = await quality.ask('GET', '/api/proposals?state=waiting');
    expect(waiting.body.items.at(-1)).toMatchObject({ number: proposal, noun: word, revision, state: 'waiting' });
    expect(waiting.body.items.at(-1).before).toContain('t-ibanez');
    expect(waiting.body.items.at(-1).before).not.toContain('i-sorbo');
    expect(waiting.body.items.at(-1).before).not.toContain('defining-office');

    expect(await approve(designer, proposal)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    expect(await approve(office, proposal)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    if (word !== 'layout')
      expect(await approve(third, proposal)).toMatchObject({
        status: 403,
        body: { code: 'duty.conflict', expected: 't-ibanez' },
      });
    expect(
      await quality.ask('POST', `/api/proposals/${proposal}/approval`, { body: { shown: '0'.repeat(64) } }),
    ).toMatchObject({ status: 412, body: { code: 'version.stale', pointer: '/shown' } });
    expect((await standingOf(word, revision)).state).toBe('proposed');

    expect(await approve(quality, proposal)).toMatchObject({
      status: 200,
      body: { state: 'approved', proposedBy: 'i-sorbo', decidedBy: 't-ibanez', differences: expect.any(Array) },
    });
    expect(await standingOf(word, revision)).toMatchObject({
      state: 'in force',
      proposedBy: 'i-sorbo',
      decidedBy: 't-ibanez',
    });
  });

  it('is proposed once under its number, and once approved is the one that is listed as in force', async () => {
    const { revision, proposal } = await proposed(word);
    const again = () =>
      designer.ask('POST', `/api/${THINGS[word].address}/revisions`, {
        body: { reason: 'the same number', content: { ...THINGS[word].content(YESTERDAY), revision } },
      });
    expect(await again()).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    expect((await approve(quality, proposal)).status).toBe(200);
    expect(await again()).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const inForce = await designer.ask('GET', `/api/${word}s?standing=in+force`);
    const own = inForce.body.items.find(({ key }: { key: string }) => THINGS[word].address.endsWith(`/${key}`));
    expect(own.content.revision).toBe(revision);
  });

  it('is decided once, when many decide in the same moment', async () => {
    const { proposal } = await proposed(word);
    const { body } = await quality.ask('GET', `/api/proposals/${proposal}`);
    const answers = await Promise.all(
      Array.from({ length: 10 }, (_, n) =>
        n % 2 === 0
          ? quality.ask('POST', `/api/proposals/${proposal}/approval`, { body: { shown: body.sha256 } })
          : third.ask('POST', `/api/proposals/${proposal}/declining`, {
              body: { shown: body.sha256, because: 'not now' },
            }),
      ),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, ...Array(9).fill(409)]);
  });
});

describe('what is only proposed', () => {
  const send = async (specimen: string, plan: { plan: string; revision: number }, change: object = {}) => {
    const operator = await service.signIn('b-ravenscroft');
    return operator.ask('POST', '/api/runs', {
      body: formOf({ ...burstRun(specimen), plan, ...change }, { 'log.csv': burstFile(specimen) }),
      headers: { 'idempotency-key': randomUUID() },
    });
  };

  it('has no run made under it, and its bytes are kept unread', async () => {
    const { revision } = await proposed('plan', day(-2));
    expect(await send(specimenKey(1), { plan: 'D42-PP', revision })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/plan/revision', found: 'proposed', stored: 'unread' },
    });
  });

  it('rests in no approved plan', async () => {
    const limit = await proposed('limit', YESTERDAY);
    const content = JSON.parse(
      JSON.stringify(bundle.plan).replaceAll(
        /\{"limit":"OCF-W-7.4","revision":\d+\}/g,
        `{"limit":"OCF-W-7.4","revision":${limit.revision}}`,
      ),
    );
    const answer = await designer.ask('POST', '/api/plans', {
      body: { ...content, plan: 'P-REST', revision: 1, approvedOn: YESTERDAY },
    });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
    const { proposal } = answer.body.standing;
    expect(await approve(quality, proposal)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', detail: expect.stringContaining('OCF-W-7.4') },
    });
    expect((await approve(quality, limit.proposal)).status).toBe(200);
  });

  it('is never approved by its proposer, whatever the program does', async () => {
    const { proposal } = await proposed('limit');
    const own = service.records.change(
      { labId: service.lab.labId, personId: designer.personId },
      'forged',
      async (rows) => {
        const { id } = (await rows.maybe(tables.Proposal, { number: proposal })) ?? { id: '' };
        await rows.add(tables.ProposalDecision, {
          proposalId: id,
          decision: 'approved',
          shownSha256: '0'.repeat(64),
          inForceFrom: YESTERDAY,
          because: null,
        });
      },
    );
    await expect(own).rejects.toThrow(/another person than the one who proposed it/);
  });
});

it('a later revision leaves every earlier verdict as it was', async () => {
  const specimen = specimenKey(2);
  const { plan, revision } = bundle.plan;
  const operator = await service.signIn('b-ravenscroft');
  await sendBurst(operator, specimen);
  const reviewer = await service.signIn('a-grossmann');
  const seen = await reviewer.ask('GET', `/api/runs/run-${specimen}`);
  const decided = await reviewer.ask('POST', `/api/runs/run-${specimen}/validity`, {
    headers: { 'if-match': seen.headers.get('etag') ?? '' },
    body: { validity: 'valid' },
  });
  const before = decided.body.verdicts;
  expect(before.length).toBeGreaterThan(0);

  const limit = limitNamed('OCF-W-7.2');
  await proposeAndApprove(designer, quality, '/api/limits/OCF-W-7.2/revisions', {
    reason: 'the federation asks for more',
    content: { ...limit, revision: (limit?.revision ?? 0) + 1, value: 9999, inForceFrom: YESTERDAY },
  });
  const after = await reviewer.ask('GET', `/api/runs/run-${specimen}`);
  expect(after.body.plan).toEqual({ plan, revision });
  expect(after.body.verdicts).toEqual(before);
  expect(after.body.limits).toEqual(decided.body.limits);
}, 60_000);

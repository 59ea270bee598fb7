import { canonicalJson, sha256 } from '@breakbook/evidence';
import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type KeyedRun, keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import { DispositionAnswer } from './dispositions.service.js';

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;
let designer: SignedInCaller;
let decider: SignedInCaller;
let second: SignedInCaller;
let lots = 0;

beforeAll(async () => {
  service = await startTestService();
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'FIRST' }));
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
  designer = await service.signIn('i-sorbo');
  decider = await service.signIn('t-ibanez');
  second = await service.signIn('second-decider', ['decide']);
}, 120_000);
afterAll(() => service.close());

/** A lot of its own, with its evaluation. */
async function aLot(runs: (number | KeyedRun)[], given: Parameters<typeof keyedLot>[1] = {}): Promise<string> {
  const lot = `LOT-${++lots}`;
  const all = runs.map((one) => (typeof one === 'number' ? { kPa: one, validity: VALID } : one));
  await keepKeyedLot(service, keyedLot(all, { ...given, lot }));
  return lot;
}

const sheet = async (lot: string, by = decider) => (await by.ask('GET', `/api/lots/${lot}/disposition`)).body;

async function review(run: string, by = reviewer, body: object = {}) {
  const { headers } = await by.ask('GET', `/api/runs/${run}`);
  return by.ask('POST', `/api/runs/${run}/reviews`, { body, headers: { 'if-match': headers.get('etag') ?? '' } });
}

async function reviewAll(lot: string): Promise<void> {
  for (const { run } of (await sheet(lot)).sheet.runs) expect(await review(run)).toMatchObject({ status: 201 });
}

/** Works on every open nonconformity of a lot and has it closed by another. */
async function closeAll(lot: string): Promise<void> {
  const { items } = (await reviewer.ask('GET', `/api/nonconformities?lot=${lot}`)).body;
  for (const { number, version, content } of items) {
    const { source: _, ...said } = content;
    await operator.ask('PUT', `/api/nonconformities/${number}`, {
      headers: { 'if-match': `"${version}"` },
      body: {
        reason: 'looked into',
        content: { ...said, cause: 'c', containment: 'c', correctiveAction: 'a', due: '2026-12-01' },
      },
    });
    const closed = await reviewer.ask('POST', `/api/nonconformities/${number}/closing`, {
      headers: { 'if-match': `"${version + 1}"` },
      body: { reason: 'done' },
    });
    expect(closed, JSON.stringify(closed.body)).toMatchObject({ status: 200 });
  }
}

async function concede(lot: string): Promise<number> {
  const asked = await designer.ask('POST', '/api/concessions', {
    body: {
      kind: 'concession',
      lot,
      limit: { limit: 'SW-RIM-BURST', revision: 2 },
      departure: 'below the limit of the lab itself',
      bounds: { quantity: 5 },
      until: '2099-12-31',
      reason: 'wanted',
      risk: 'less margin',
    },
  });
  expect(asked, JSON.stringify(asked.body)).toMatchObject({ status: 201 });
  const granted = await decider.ask('POST', `/api/concessions/${asked.body.number}/grant`, {
    headers: { 'if-match': '"1"' },
    body: { reason: 'weighed' },
  });
  expect(granted).toMatchObject({ status: 200 });
  return asked.body.number;
}

async function decide(lot: string, outcome: string, by = decider, more: object = {}) {
  const { sha256: shown } = await sheet(lot, by);
  return by.ask('POST', `/api/lots/${lot}/dispositions`, {
    body: { outcome, reason: 'as the sheet says', shown, ...more },
  });
}

async function countersign(lot: string, number: number, by = second, shown?: string) {
  const digest = shown ?? (await sheet(lot, by)).sha256;
  return by.ask('POST', `/api/dispositions/${number}/signatures`, { body: { shown: digest } });
}

describe('a review', () => {
  it('comes after validity, by nobody who recorded, once for what stands; a later word makes it old', async () => {
    const lot = await aLot([1900, { kPa: 1900 }]);
    expect(await review(`${lot}-r2`)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const both = await service.signIn('records-and-reviews', ['record', 'review']);
    expect(await review(`${lot}-r1`, both)).toMatchObject({ status: 201 });
    expect(await review(`${lot}-r1`)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const { headers } = await both.ask('GET', `/api/runs/${lot}-r1`);
    const again = await reviewer.ask('POST', `/api/runs/${lot}-r1/validity`, {
      body: { validity: 'valid with deviation', note: 'Conditioned for 40 minutes.' },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(again).toMatchObject({ status: 201 });
    const { items } = (await reviewer.ask('GET', `/api/runs/${lot}-r1/reviews`)).body;
    expect(items).toMatchObject([{ by: 'records-and-reviews', current: false }]);
    expect(await review(`${lot}-r1`)).toMatchObject({ status: 422, body: { code: 'body.missing-field' } });
    const noted = await review(`${lot}-r1`, reviewer, { note: 'The deviation changes nothing.' });
    expect(noted).toMatchObject({ status: 201, body: { items: [{ current: false }, { current: true }] } });
  });

  it('is refused to whoever recorded the run, though they have the duty', async () => {
    const lot = await aLot([1900]);
    const recorder = await service.signIn('keys-and-reviews', ['record', 'review']);
    // Somebody else's name stands in the run; what was added in one's own name counts as much.
    const address = `/api/runs/${lot}-r1`;
    const { personId } = recorder;
    await service.records.change(
      { labId: service.lab.labId, personId },
      'examination corrected',
      'as seen',
      async (rows) => {
        const run = await rows.named(tables.Run, `${lot}-r1`);
        const { content } = await rows.latest(tables.Examination, run.id);
        await rows.addVersion(tables.Examination, run.id, { content });
      },
    );
    const { headers } = await recorder.ask('GET', address);
    const answer = await recorder.ask('POST', `${address}/reviews`, {
      body: {},
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(answer).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
  });
});

describe('the sheet', () => {
  it('lists every run whatever became of it, nonconformities, attempts, and its digest is that of what is shown', async () => {
    const at = { person: 'a-grossmann', at: '2026-07-17T12:20:00Z' };
    const lot = await aLot(
      [
        1900,
        { kPa: 900, validity: { validity: 'invalid', reason: 'rig fault', ...at } },
        { kPa: 900, validity: { validity: 'void', note: 'entered twice', ...at } },
        1600,
        { kPa: 2000, validity: VALID, origin: 'hand-picked' },
      ],
      { planned: 2 },
    );
    const { sheet: shown, sha256: digest } = await sheet(lot);
    expect(shown.runs.map(({ validity }: { validity: string }) => validity)).toEqual([
      'valid',
      'invalid',
      'void',
      'valid',
      'valid',
    ]);
    expect(
      shown.nonconformities.map(({ source, state }: { source: string; state: string }) => [source, state]),
    ).toEqual([
      ['lab error', 'open'],
      ['failed verdict', 'open'],
    ]);
    expect(shown.attempts.marks).toHaveLength(1);
    expect(shown.attempts.lines).toMatchObject([{ runs: 5, valid: 3, invalid: 1, void: 1, inClaim: 2 }]);
    expect(digest).toBe(sha256(canonicalJson(shown)));
  });
});

describe('a lot is disposed of', () => {
  it('not before everything is there: each thing missing is said', async () => {
    const lot = await aLot([1900, { kPa: 1800 }], { planned: 2 });
    const answer = await decide(lot, 'accepted');
    expect(answer).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const said = answer.body.errors.map(({ detail }: { detail: string }) => detail).join('\n');
    expect(said).toContain('is undecided');
    expect(said).toContain(`validity of run ${lot}-r2 is not decided`);
    expect(said).toContain(`Run ${lot}-r1 is not reviewed`);
    expect((await decider.ask('GET', `/api/lots/${lot}/dispositions`)).body.items).toEqual([]);
  });

  it('not by an evaluation that is not of the records as they are', async () => {
    const lot = await aLot([1900]);
    await reviewAll(lot);
    const { headers } = await reviewer.ask('GET', `/api/runs/${lot}-r1`);
    await reviewer.ask('POST', `/api/runs/${lot}-r1/validity`, {
      body: { validity: 'invalid', reason: 'specimen damaged before the run', note: 'a crack was seen on the photo' },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    await review(`${lot}-r1`, reviewer, { note: 'seen' });
    const answer = await decide(lot, 'accepted');
    expect(answer).toMatchObject({ status: 409 });
    expect(answer.body.detail).toContain('does not rest on the records as they are now');
  });

  it('with name, role, instant, meaning and the digest of what was shown, in one ledger entry', async () => {
    const lot = await aLot([1900, 1850]);
    await reviewAll(lot);
    const { sheet: shown, sha256: digest } = await sheet(lot);
    expect(shown.missing).toEqual([]);
    const before = (await decider.ask('GET', '/api/ledger/head')).body;
    const answer = await decide(lot, 'accepted');
    expect(answer, JSON.stringify(answer.body)).toMatchObject({
      status: 201,
      body: {
        lot,
        outcome: 'accepted',
        state: 'in force',
        deciders: 1,
        signatures: [
          {
            person: 't-ibanez',
            name: 'Tomás Ibáñez Quirós',
            role: 'Head of quality',
            meaning: `I answer for the decision that lot ${lot} is accepted.`,
            shown: digest,
          },
        ],
      },
    });
    expect(DispositionAnswer.parse(answer.body).sheets).toEqual([shown]);
    const head = (await decider.ask('GET', '/api/ledger/head')).body;
    expect(head.sequence).toBe(before.sequence + 1);
    const entry = (await decider.ask('GET', `/api/ledger/${head.sequence}`)).body;
    expect(JSON.stringify(entry)).toContain('lot disposed of');
    expect(JSON.stringify(entry)).toContain(digest);
  });

  it('only as the sheet stood when it was shown', async () => {
    const lot = await aLot([1900]);
    await reviewAll(lot);
    const { sha256: shown } = await sheet(lot);
    await operator.ask('POST', '/api/nonconformities', {
      body: { title: 'label fell off', found: 'no label', lots: [lot], runs: [], specimens: [] },
    });
    const body = { outcome: 'accepted', reason: 'r', shown };
    const stale = await decider.ask('POST', `/api/lots/${lot}/dispositions`, { body });
    expect(stale).toMatchObject({ status: 412, body: { code: 'version.stale', pointer: '/shown' } });
    const open = await decide(lot, 'not accepted');
    expect(open).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    expect(open.body.detail).toMatch(/Nonconformity \d+ is open/);
    await closeAll(lot);
    expect(await decide(lot, 'accepted')).toMatchObject({ status: 201 });
  });

  it('never accepted where an external limit failed, whatever is asked for', async () => {
    const lot = await aLot([1900, 1400]);
    await reviewAll(lot);
    await closeAll(lot);
    for (const outcome of ['accepted', 'accepted on concession']) {
      const answer = await decide(lot, outcome);
      expect(answer, outcome).toMatchObject({ status: 409, body: { code: 'state.conflict', pointer: '/outcome' } });
    }
    expect(await decide(lot, 'not accepted')).toMatchObject({ status: 201, body: { state: 'in force' } });
  });

  it('on concession by two deciders where an internal limit failed, and the verdict stays', async () => {
    const lot = await aLot([1900, 1600]);
    await reviewAll(lot);
    await closeAll(lot);
    expect(await decide(lot, 'accepted')).toMatchObject({ status: 409 });
    expect(await decide(lot, 'accepted on concession')).toMatchObject({ status: 409 });
    await concede(lot);
    const first = await decide(lot, 'accepted on concession');
    expect(first, JSON.stringify(first.body)).toMatchObject({
      status: 201,
      body: { state: 'waits for a second decider', deciders: 2 },
    });
    const { number } = first.body;
    expect(await countersign(lot, number, decider)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    const stale = await countersign(lot, number, second, first.body.signatures[0].shown);
    expect(stale).toMatchObject({ status: 412, body: { code: 'version.stale' } });
    const answers = await Promise.all(Array.from({ length: 6 }, () => countersign(lot, number)));
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
    for (const { status } of answers.filter((one) => one.status !== 201)) expect([409, 412]).toContain(status);
    const { body } = await decider.ask('GET', `/api/dispositions/${number}`);
    expect(body).toMatchObject({
      state: 'in force',
      signatures: [{ person: 't-ibanez' }, { person: 'second-decider' }],
    });
    const { sheet: shown } = await sheet(lot);
    expect(shown.runs[1].verdicts).toContainEqual(expect.objectContaining({ outcome: 'does not conform' }));
  });

  it.each([['b-ravenscroft', 'record'] as const, ['a-grossmann', 'review'] as const])(
    'by nobody who did the other side of a pair: %s',
    async (person, act) => {
      const lot = await aLot([1900]);
      await reviewAll(lot);
      const { headers, body } = await service.signIn(person).then((one) => one.ask('GET', `/api/people/${person}`));
      const administrator = await service.signIn('y-hamasaki');
      const give = (duties: string[], etag: string) =>
        administrator.ask('PUT', `/api/people/${person}/duties`, {
          headers: { 'if-match': etag },
          body: { duties, reason: 'short of deciders' },
        });
      const before = body.content.duties;
      const given = await give([...before, 'decide'], headers.get('etag') ?? '');
      expect(given, JSON.stringify(given.body)).toMatchObject({ status: 200 });
      const answer = await decide(lot, 'accepted', await service.signIn(person));
      expect(answer, act).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
      await give(before, `"${given.body.version}"`);
      operator = await service.signIn('b-ravenscroft');
      reviewer = await service.signIn('a-grossmann');
    },
  );

  it('anew only by naming the disposition it replaces', async () => {
    const lot = await aLot([1900]);
    await reviewAll(lot);
    expect(await decide(lot, 'accepted', decider, { replaces: 9999 })).toMatchObject({
      status: 422,
      body: { code: 'body.not-found', pointer: '/replaces' },
    });
    const { number } = (await decide(lot, 'accepted')).body;
    expect(await decide(lot, 'not accepted')).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const anew = await decide(lot, 'not accepted', second, { replaces: number });
    expect(anew).toMatchObject({ status: 201, body: { replaces: number, state: 'in force' } });
    expect((await decider.ask('GET', `/api/dispositions/${number}`)).body.state).toBe('replaced');
  });

  it('and everything is in the ledger as it was written', async () => {
    const report = await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore());
    expect(report.holds, JSON.stringify(report)).toBe(true);
  });
});

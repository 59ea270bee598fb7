import { randomUUID } from 'node:crypto';
import { DISPOSAL_STATES, type DisposalState, LEGAL_HOLD_STATES, mayMove } from '@breakbook/lab';
import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.js';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { formOf } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

const LOT = 'KEPT';
const SPECIMENS = 40;
const bundle = keyedLot([{ kPa: 1900, validity: VALID }], { lot: LOT, spare: SPECIMENS - 1 });

let service: TestService;
let operator: SignedInCaller;
let stores: SignedInCaller;
let reviewer: SignedInCaller;
let decider: SignedInCaller;
let second: SignedInCaller;
let unused = 1;
/** A specimen of the decided lot that no other test touches. */
const fresh = () => `${LOT}-${++unused}`;

beforeAll(async () => {
  service = await startTestService();
  await keepKeyedLot(service, bundle);
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'UNDECIDED', spare: 1 }));
  operator = await service.signIn('b-ravenscroft');
  stores = await service.signIn('d-zunic');
  reviewer = await service.signIn('a-grossmann');
  decider = await service.signIn('t-ibanez');
  second = await service.signIn('second-decider', ['decide']);
  const { headers } = await reviewer.ask('GET', `/api/runs/${LOT}-r1`);
  await reviewer.ask('POST', `/api/runs/${LOT}-r1/reviews`, {
    body: {},
    headers: { 'if-match': headers.get('etag') ?? '' },
  });
  const { sha256: shown } = (await decider.ask('GET', `/api/lots/${LOT}/disposition`)).body;
  const decided = await decider.ask('POST', `/api/lots/${LOT}/dispositions`, {
    body: { outcome: 'accepted', reason: 'as the sheet says', shown },
  });
  expect(decided, JSON.stringify(decided.body)).toMatchObject({ status: 201, body: { state: 'in force' } });
}, 120_000);
afterAll(() => service.close());

const version = (n: number) => ({ headers: { 'if-match': `"${n}"` } });

/** The day until which a specimen of its own is kept; a day long past lets it go today. */
async function keep(specimen: string, until: string) {
  const { body } = await decider.ask('GET', `/api/specimens/${specimen}/keeping`);
  const said = await decider.ask('PUT', `/api/specimens/${specimen}/keeping`, {
    body: { until, note: 'as counsel said' },
    ...version(body.version),
  });
  expect(said, JSON.stringify(said.body)).toMatchObject({ status: 200 });
}

async function released(): Promise<string> {
  const specimen = fresh();
  await keep(specimen, '2020-01-01');
  return specimen;
}

const ask = (specimens: string[], by = stores, more: object = {}) =>
  by.ask('POST', '/api/disposals', {
    body: { specimens, reason: 'the rack is full', how: 'cut in four, to the metal merchant', ...more },
  });

const MOVES = {
  authorise: { path: 'authorisation', body: { reason: 'nobody asks for it any more' } },
  refuse: { path: 'refusal', body: { reason: 'still wanted' } },
  withdraw: { path: 'withdrawal', body: { reason: 'asked too early' } },
  'carry out': {
    path: 'carrying-out',
    body: { how: 'cut in four', place: 'yard 2', at: '2026-11-20T10:00:00Z', by: 'Dario Zunic' },
  },
} as const;
type Move = keyof typeof MOVES;

const move = (by: SignedInCaller, what: Move, n: number, seen: number) =>
  by.ask('POST', `/api/disposals/${n}/${MOVES[what].path}`, { body: MOVES[what].body, ...version(seen) });

const place = (more: object, by = reviewer) =>
  by.ask('POST', '/api/legal-holds', {
    body: { reference: 'file 31/204', reason: 'a rider asks', lots: [], specimens: [], ...more },
  });
const lift = (n: number, by = decider) =>
  by.ask('POST', `/api/legal-holds/${n}/lifting`, { body: { reason: 'released by letter of counsel' } });

const fate = async (specimen: string) => (await stores.ask('GET', `/api/specimens/${specimen}`)).body;

describe('keeping', () => {
  it('is proposed by rules that say why, and binds once a person has said a day', async () => {
    const before = (await decider.ask('GET', `/api/lots/${LOT}/keeping`)).body;
    expect(before).toMatchObject({ version: 1, said: [] });
    // The sample's first run, which is the model of this one, was made on 14 July 2026; nothing failed: 12 years and 1 year.
    expect(before.proposal).toMatchObject({ recordsUntil: '2038-07-14', remnantsUntil: '2027-07-14' });
    expect(before.proposal.caution).toContain('a lawyer must confirm');
    expect(before.specimens[0].obstacles).toMatchObject([
      { kind: 'keep-until', what: `Nobody has said until when specimen ${LOT}-1 is kept.` },
    ]);
    const body = { recordsUntil: '2038-07-17', remnantsUntil: '2098-07-17', note: 'as proposed, and longer' };
    expect(await decider.ask('PUT', `/api/lots/${LOT}/keeping`, { body })).toMatchObject({ status: 428 });
    const said = await decider.ask('PUT', `/api/lots/${LOT}/keeping`, { body, ...version(1) });
    expect(said.body).toMatchObject({ version: 2, said: [{ ...body, by: 't-ibanez' }] });
    expect(await decider.ask('PUT', `/api/lots/${LOT}/keeping`, { body, ...version(1) })).toMatchObject({
      status: 412,
    });
    expect(said.body.specimens[3]).toMatchObject({ keptUntil: '2098-07-17', saidOf: 'lot' });
    expect((await decider.ask('GET', `/api/lots/${LOT}/disposition`)).body.sheet.keeping).toEqual({
      recordsUntil: '2038-07-17',
      remnantsUntil: '2098-07-17',
    });
  });

  it('of one specimen goes before that of its lot, and the list says what may go today', async () => {
    const specimen = await released();
    expect((await stores.ask('GET', `/api/specimens/${specimen}/keeping`)).body).toMatchObject({
      keptUntil: '2020-01-01',
      saidOf: 'specimen',
      obstacles: [],
    });
    const { items } = (await stores.ask('GET', '/api/keeping?limit=200')).body;
    const free = items.filter((one: { obstacles: unknown[] }) => one.obstacles.length === 0);
    expect(free.map((one: { specimen: string }) => one.specimen)).toEqual([specimen]);
    const open = items.find((one: { lot: string }) => one.lot === 'UNDECIDED');
    expect(open.obstacles.map((one: { kind: string }) => one.kind)).toEqual(['keep-until', 'undecided']);
  });
});

describe('a disposal', () => {
  /** One in this state, of a specimen that may go. */
  async function inState(state: DisposalState): Promise<{ number: number; seen: number; specimen: string }> {
    const specimen = await released();
    const { number } = (await ask([specimen])).body;
    const steps: Record<DisposalState, Move[]> = {
      'asked for': [],
      authorised: ['authorise'],
      refused: ['refuse'],
      withdrawn: ['withdraw'],
      'carried out': ['authorise', 'carry out'],
    };
    for (const [index, step] of steps[state].entries()) {
      const answer = await move(decider, step, number, index + 1);
      expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 200 });
    }
    return { number, seen: steps[state].length + 1, specimen };
  }

  it.each(DISPOSAL_STATES.states)(
    'that is %s takes the moves of its table, and no other',
    async (state) => {
      for (const what of Object.keys(MOVES) as Move[]) {
        const { number, seen, specimen } = await inState(state);
        const answer = await move(decider, what, number, seen);
        const may = mayMove(DISPOSAL_STATES, what, state);
        expect(answer.status, `${what}: ${JSON.stringify(answer.body)}`).toBe(may ? 200 : 409);
        if (may) expect(answer.body.state).toBe(DISPOSAL_STATES.moves[what].to[0]);
        else expect(answer.body).toMatchObject({ code: 'state.conflict', found: state });
        const gone = state === 'carried out' || (may && what === 'carry out');
        expect((await fate(specimen)).state).toBe(gone ? 'disposed' : 'received');
      }
    },
    60_000,
  );

  it('is recorded with who, when and how, and the specimen is then run, moved and disposed of no more', async () => {
    const { number, specimen } = await inState('carried out');
    expect((await decider.ask('GET', `/api/disposals/${number}`)).body).toMatchObject({
      done: MOVES['carry out'].body,
      askedBy: 'd-zunic',
      items: [
        { state: 'asked for', by: 'd-zunic' },
        { state: 'authorised', by: 't-ibanez', reason: 'nobody asks for it any more' },
        { state: 'carried out', by: 't-ibanez' },
      ],
    });
    const states = await stores.ask('GET', `/api/specimens/${specimen}/states`);
    expect(states.body).toMatchObject({ state: 'disposed', moves: [] });
    const kept = await stores.ask('POST', `/api/specimens/${specimen}/states`, {
      body: { move: 'retain', note: 'after all' },
      headers: { 'if-match': states.headers.get('etag') ?? '' },
    });
    expect(kept).toMatchObject({ status: 409, body: { code: 'state.conflict', found: 'disposed' } });
    expect(await ask([specimen])).toMatchObject({ status: 409, body: { code: 'state.conflict', found: 'disposed' } });
  });

  it('is authorised by nobody who asked for it, not by the program and not by the database', async () => {
    const { number } = (await ask([await released()], decider)).body;
    for (const what of ['authorise', 'refuse'] as const)
      expect(await move(decider, what, number, 1)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    expect(await move(operator, 'withdraw', number, 1)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    await expect(
      queryAs(
        service.database.owner,
        `insert into disposal_version (lab_id, id, person_id, at, record_id, version, reason, state)
         select lab_id, gen_random_uuid(), person_id, now(), id, 2, 'because', 'authorised'
         from disposal where number = ${number}`,
      ),
    ).rejects.toMatchObject({ code: 'BB006' });
    expect(await move(second, 'authorise', number, 1)).toMatchObject({ status: 200 });
  });

  it('needs the keep-until to be past, or an exception with its reason; nothing else is excepted', async () => {
    const specimen = fresh();
    await keep(specimen, '2099-01-01');
    const plain = (await ask([specimen])).body;
    expect(plain.obstacles).toMatchObject([{ kind: 'keep-until' }]);
    expect(await move(decider, 'authorise', plain.number, 1)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', detail: `Specimen ${specimen} is kept until 2099-01-01.` },
    });
    const early = (await ask([specimen], stores, { exception: 'It is mouldy, and endangers the rest.' })).body;
    expect(early.obstacles).toEqual([]);
    expect(await move(decider, 'authorise', early.number, 1)).toMatchObject({ status: 200 });
    const undecided = (await ask(['UNDECIDED-2'], stores, { exception: 'No room.' })).body;
    expect(await move(decider, 'authorise', undecided.number, 1)).toMatchObject({
      status: 409,
      body: { detail: 'No disposition of lot UNDECIDED is in force.' },
    });
  });

  it('waits while a nonconformity of its lot is open, also one that came after it was authorised', async () => {
    const { number } = await inState('authorised');
    const opened = await operator.ask('POST', '/api/nonconformities', {
      body: { title: 'Label lost', found: 'Two labels lay on the floor.', lots: [LOT], runs: [], specimens: [] },
    });
    expect(await move(stores, 'carry out', number, 2)).toMatchObject({
      status: 409,
      body: { detail: `Nonconformity ${opened.body.number} of lot ${LOT} is open.` },
    });
    const { source: _, ...content } = opened.body.content;
    const said = { ...content, cause: 'c', containment: 'c', correctiveAction: 'a', due: '2026-12-01' };
    const at = `/api/nonconformities/${opened.body.number}`;
    await operator.ask('PUT', at, { body: { reason: 'looked into', content: said }, ...version(1) });
    expect(await reviewer.ask('POST', `${at}/closing`, { body: { reason: 'done' }, ...version(2) })).toMatchObject({
      status: 200,
    });
    expect(await move(stores, 'carry out', number, 2)).toMatchObject({ status: 200 });
  });

  it('is done once though eight record it at once', async () => {
    const { number, specimen } = await inState('authorised');
    const answers = await Promise.all(Array.from({ length: 8 }, () => move(stores, 'carry out', number, 2)));
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const { status } of answers.filter((one) => one.status !== 200)) expect(status).toBe(409);
    expect((await stores.ask('GET', `/api/specimens/${specimen}/states`)).body.items).toHaveLength(1);
  });
});

describe('a legal hold', () => {
  it.each([
    ['the specimen', (specimen: string) => ({ specimens: [specimen] })],
    ['its lot', () => ({ lots: [LOT] })],
  ])('on %s beats its keep-until and every exception, until another person lifts it', async (_what, covers) => {
    const specimen = await released();
    const { number } = (await ask([specimen], stores, { exception: 'No room.' })).body;
    expect(await move(decider, 'authorise', number, 1)).toMatchObject({ status: 200 });
    const hold = await place(covers(specimen));
    expect(hold, JSON.stringify(hold.body)).toMatchObject({ status: 201, body: { state: 'in force' } });
    expect(await fate(specimen)).toMatchObject({ holds: [hold.body.number] });
    expect(await move(stores, 'carry out', number, 2)).toMatchObject({
      status: 409,
      body: { detail: `Specimen ${specimen} is on legal hold ${hold.body.number}.` },
    });
    const more = (await ask([specimen], stores, { exception: 'No room.' })).body;
    expect(await move(decider, 'authorise', more.number, 1)).toMatchObject({ status: 409 });
    const model = bundle.runs[0];
    const { files: _files, validity: _validity, ...run } = { ...model, run: `${specimen}-held`, specimen };
    const { plan, revision } = bundle.plan;
    const ran = await operator.ask('POST', '/api/runs', {
      body: formOf({ ...run, plan: { plan, revision } } as never),
      headers: { 'idempotency-key': randomUUID() },
    });
    expect(ran).toMatchObject({ status: 409, body: { code: 'state.conflict' } });

    const placer = await service.signIn('places-and-decides', ['review', 'decide']);
    const own = (await place({ specimens: [specimen] }, placer)).body.number;
    expect(await lift(own, placer)).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
    for (const n of [own, hold.body.number])
      expect((await lift(n)).body).toMatchObject({ state: 'lifted', lifted: { by: 't-ibanez' } });
    expect(await lift(own)).toMatchObject({ status: 409, body: { code: 'state.conflict', found: 'lifted' } });
    expect(LEGAL_HOLD_STATES.moves.lift.from).toEqual(['in force']);
    expect(await move(stores, 'carry out', number, 2)).toMatchObject({ status: 200 });
  });

  it('names what is there, at least one thing', async () => {
    expect(await place({})).toMatchObject({ status: 422 });
    expect(await place({ lots: ['nowhere'], specimens: ['none'] })).toMatchObject({
      status: 422,
      body: { code: 'body.not-found', pointer: '/lots/0' },
    });
  });

  it('and a disposal of the same moment: one of the two is first, and nothing goes under a hold', async () => {
    let gone = 0;
    for (let round = 0; round < 6; round++) {
      const specimen = await released();
      const { number } = (await ask([specimen])).body;
      await move(decider, 'authorise', number, 1);
      const [held, done] = await Promise.all(
        round % 2 === 0
          ? [place({ specimens: [specimen] }), move(stores, 'carry out', number, 2)]
          : [move(stores, 'carry out', number, 2), place({ specimens: [specimen] })].reverse(),
      );
      expect(held?.status, JSON.stringify(held?.body)).toBe(201);
      expect([200, 409], JSON.stringify(done?.body)).toContain(done?.status);
      const reader = service.records.read(service.lab.labId);
      const { id } = await reader.named(tables.Specimen, specimen);
      const states = await reader.find(tables.SpecimenState, { recordId: id });
      expect(states).toHaveLength(done?.status === 200 ? 1 : 0);
      if (done?.status === 200) {
        gone++;
        // The entry of the disposal stands before that of the hold.
        const { items } = (await decider.ask('GET', '/api/ledger?order=newest&limit=5')).body;
        const actions = items.map((one: { action: string }) => one.action);
        expect(actions.indexOf('legal hold placed')).toBeLessThan(actions.indexOf('disposal: carry out'));
      }
    }
    expect(gone).toBeGreaterThanOrEqual(0);
  }, 60_000);

  it('is held to by the database too, whatever the program does', async () => {
    const specimen = await released();
    await place({ specimens: [specimen] });
    const reader = service.records.read(service.lab.labId);
    const { id } = await reader.named(tables.Specimen, specimen);
    const forged = () =>
      service.records.change(service.lab, 'forged', (rows) =>
        rows.addVersion(tables.SpecimenState, id, { state: 'disposed', note: 'gone' }),
      );
    await expect(forged()).rejects.toThrow(/on legal hold/);
    const { id: other } = await reader.named(tables.Specimen, await released());
    const without = service.records.change(service.lab, 'forged', (rows) =>
      rows.addVersion(tables.SpecimenState, other, { state: 'disposed', note: 'gone' }),
    );
    await expect(without).rejects.toThrow(/in no disposal/);
  });

  it('and all else of it leaves rows that the ledger names', async () => {
    const report = await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore());
    expect(report.holds, JSON.stringify(report)).toBe(true);
  });
});

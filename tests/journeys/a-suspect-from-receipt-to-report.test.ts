import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../database.ts';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { aComparison, aReference, BURST, declaredDigest, keepSuspects, MASS } from '../suspect-case.ts';

const COMPARISON = 'GRAYFORD';
const HIDDEN = 'hidden until conclusions are locked';
const AT = '2026-10-01T09:00:00Z';

let service: TestService;
let as: Record<'designer' | 'quality' | 'operator' | 'stores' | 'head' | 'office', SignedInCaller>;

beforeAll(async () => {
  service = await startTestService();
  await keepSuspects(service);
  as = {
    designer: await service.signIn('i-sorbo'),
    quality: await service.signIn('t-ibanez'),
    operator: await service.signIn('b-ravenscroft'),
    stores: await service.signIn('d-zunic'),
    head: await service.signIn('a-grossmann'),
    office: await service.signIn('y-hamasaki'),
  };
}, 120_000);
afterAll(() => service.close());

const at = (way = '') => `/api/comparisons/${COMPARISON}${way}`;
const post = (by: SignedInCaller, address: string, body: object): Promise<Answer> => by.ask('POST', address, { body });
const get = async (by: SignedInCaller, address: string) => (await by.ask('GET', address)).body;
const refused = (answer: Answer, status: number, code: string) =>
  expect(answer, JSON.stringify(answer.body)).toMatchObject({ status, body: { code } });
const done = (answer: Answer) => {
  expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
  return answer.body;
};

describe('the reference', () => {
  it('is frozen with the instant of the service, and takes no rim of unknown making', async () => {
    const suspect = { ...aReference(), units: [{ specimen: 'MARKET-1', lot: 'MARKET' }] };
    const answer = await post(as.designer, '/api/references', suspect);
    refused(answer, 409, 'state.conflict');
    expect(answer.body.detail).toContain('unknown making');
    const kept = done(await post(as.designer, '/api/references', aReference()));
    expect(Math.abs(Date.parse(kept.content.frozenAt) - Date.now())).toBeLessThan(60_000);
    expect(kept.content.chosenBy).toBe('i-sorbo');
  });

  it('is changed by a further revision alone; the one before stays readable', async () => {
    const fewer = { ...aReference(), units: aReference().units.slice(0, 11) };
    refused(
      await post(as.designer, '/api/references/D42-KNOWN/revisions', { reason: 'one was dropped', content: fewer }),
      409,
      'state.conflict',
    );
    const content = { ...fewer, revision: 2 };
    done(await post(as.designer, '/api/references/D42-KNOWN/revisions', { reason: 'one was dropped', content }));
    expect((await get(as.head, '/api/references/D42-KNOWN')).content.units).toHaveLength(11);
    expect((await get(as.head, '/api/references/D42-KNOWN/revisions/1')).content.units).toHaveLength(12);
  });
});

describe('what is declared', () => {
  const blind = { blinded: ['b-ravenscroft'], listKeptBy: 'd-zunic' };
  const declared = (change: object = {}) => aComparison(COMPARISON, { blind, mayGoToCourt: true, ...change });

  it('names what is there, once, and no unit of its own reference', async () => {
    const compared = { ...aComparison().compared, items: ['REF-A-1', 'NOBODY'] };
    const characteristics = [{ ...BURST, source: { ...BURST.source, characteristic: 'colour' } }];
    const answer = await post(as.designer, '/api/comparisons', declared({ compared, characteristics }));
    expect(answer.body.errors.map((one: { pointer: string }) => one.pointer).sort()).toEqual([
      '/characteristics/0/source/characteristic',
      '/compared/items/0',
      '/compared/items/1',
    ]);
  });

  it('is approved by another person, as it was shown', async () => {
    const { sha256 } = done(await post(as.designer, '/api/comparisons', declared()));
    refused(await post(as.designer, at('/approval'), { shown: sha256 }), 403, 'duty.conflict');
    refused(await post(as.quality, at('/approval'), { shown: 'f'.repeat(64) }), 412, 'version.stale');
    const seen = { specimen: 'MARKET-1', feature: 'label', seen: 'DUNLIN 24', at: AT };
    refused(await post(as.operator, at('/observations'), seen), 409, 'state.conflict');
    const approved = done(await post(as.quality, at('/approval'), { shown: sha256 }));
    expect(approved).toMatchObject({ state: 'approved', inForce: 1, declaredAfterResults: false });
    await expect(
      queryAs(
        service.database.owner,
        `insert into comparison_decision (lab_id, id, person_id, at, revision_id, decision, shown_sha256)
         select lab_id, gen_random_uuid(), person_id, now(), id, 'approved', repeat('0', 64) from comparison_revision`,
      ),
    ).rejects.toMatchObject({ code: 'BB006' });
  });
});

describe('custody', () => {
  const received = { step: 'received', from: 'Amrei Lund', to: 'd-zunic', place: 'gate', seal: '4711', at: AT };
  const event = (change: object) => ({ ...received, condition: 'whole, box taped', changesItem: false, ...change });
  const custody = '/api/specimens/MARKET-1/custody';

  it('grows from receipt on, and no row of it ever changes', async () => {
    done(await post(as.stores, custody, event({})));
    const stored = { step: 'stored', from: undefined, place: 'cage 2', at: '2026-10-01T09:30:00Z' };
    const { items } = done(await post(as.stores, custody, event(stored)));
    expect(items.map(({ step }: { step: string }) => step)).toEqual(['received', 'stored']);
    refused(await post(as.stores, custody, event({ from: undefined })), 422, 'body.range');
    refused(await post(as.stores, custody, event({ at: '2099-01-01T00:00:00Z' })), 422, 'body.range');
    await expect(queryAs(service.database.owner, 'delete from custody_event')).rejects.toMatchObject({ code: 'BB001' });
  });

  it('has no step that changes what may go to court before somebody agreed, or was told', async () => {
    const tested = event({
      step: 'tested',
      from: 'd-zunic',
      to: 'b-ravenscroft',
      place: 'rig hall',
      changesItem: true,
    });
    const answer = await post(as.stores, custody, { ...tested, at: '2026-10-03T09:00:00Z' });
    refused(answer, 409, 'state.conflict');
    expect(answer.body.action).toContain(COMPARISON);
    const consent = {
      kind: 'consent',
      party: 'insurer of the rider',
      about: 'Both rims are burst.',
      at: '2026-10-02T09:00:00Z',
    };
    done(await post(as.stores, at('/consents'), consent));
    refused(await post(as.stores, custody, { ...tested, at: '2026-10-01T10:00:00Z' }), 409, 'state.conflict');
    done(await post(as.stores, custody, { ...tested, at: '2026-10-03T09:00:00Z' }));
  });
});

describe('whoever is blinded', () => {
  it('knows an item by its code, and is told no more anywhere', async () => {
    const asked = async (by: SignedInCaller, key: string) => (await get(by, `/api/specimens/${key}`)).content;
    expect(await asked(as.head, 'MARKET-1')).toMatchObject({ origin: 'suspect', serial: 'S-MARKET-1' });
    for (const key of ['MARKET-1', 'REF-A-5', 'REF-A-1'])
      expect(await asked(as.operator, key)).toMatchObject({
        origin: HIDDEN,
        serial: HIDDEN,
        condition: HIDDEN,
        build: {},
      });
    for (const address of [
      '/api/specimens?lot=MARKET',
      '/api/specimens?called=S-MARKET-1',
      '/api/specimens/MARKET-1/history',
      '/api/specimens/MARKET-1/custody',
      '/api/references/D42-KNOWN/revisions/1',
      '/api/references',
      at(),
    ])
      expect(JSON.stringify(await get(as.operator, address)), address).not.toMatch(/suspect|S-MARKET|Lund|"S-REF-A-1"/);
    expect((await get(as.operator, '/api/specimens?called=S-MARKET-1')).items).toEqual([]);
    for (const address of ['/api/lots/MARKET/sheet', '/api/lots/REF-A/report.pdf', '/api/lots/REF-A/runs/REF-A-r1'])
      refused(await as.operator.ask('GET', address), 403, 'auth.forbidden');
    const [entry] = await queryAs(
      service.database.owner,
      `select entry.sequence from ledger_entry entry
       join specimen_version version on position(version.id::text in entry.text) > 0
       where version.content ->> 'specimen' = 'MARKET-1'`,
    );
    refused(await as.operator.ask('GET', `/api/ledger/${entry?.sequence}`), 403, 'auth.forbidden');
    expect((await get(as.operator, at())).hiddenFromYou).toBe(true);
    expect((await get(as.head, at())).hiddenFromYou).toBe(false);
  });

  it('and everybody else but its keeper does not read the list of codes', async () => {
    const codes = { codes: [{ code: 'MARKET-1', identity: 'from the stall with the red awning' }] };
    refused(await post(as.designer, at('/codes'), codes), 403, 'auth.forbidden');
    done(await post(as.stores, at('/codes'), codes));
    expect((await get(as.stores, at('/codes'))).items[0].codes).toEqual(codes.codes);
    for (const by of [as.operator, as.designer, as.head, as.office])
      refused(await by.ask('GET', at('/codes')), 403, 'auth.forbidden');
    const told = `select 1 from ledger_entry where text like '%red awning%'`;
    expect(await queryAs(service.database.owner, told)).toEqual([]);
  });
});

describe('a protected note', () => {
  const notes = '/api/specimens/MARKET-1/protected-notes';
  const text = 'A dot of green resin beside the valve hole.';

  it('is read by whom it names, and is not there for anybody else', async () => {
    const readers = ['i-sorbo', 'a-grossmann'];
    refused(await post(as.designer, notes, { title: 'Covert', text, readers: ['nobody'] }), 422, 'body.not-found');
    done(await post(as.operator, notes, { title: 'Covert', text, readers }));
    for (const by of [as.designer, as.head]) expect((await get(by, notes)).items[0].text).toBe(text);
    const nothing = await as.office.ask('GET', '/api/specimens/MARKET-2/protected-notes');
    for (const by of [as.operator, as.office, as.quality]) {
      const answer = await by.ask('GET', notes);
      expect([answer.status, answer.body.detail]).toEqual([404, nothing.body.detail.replace('MARKET-2', 'MARKET-1')]);
    }
  });

  it('leaves in evidence and ledger a salted digest, and nothing that it says or is about', async () => {
    const rows = await queryAs(service.database.owner, 'select * from protected_note');
    expect(Object.keys(rows[0] ?? {}).sort()).toEqual(['at', 'id', 'lab_id', 'person_id', 'salted_sha256']);
    const told = `select 1 from ledger_entry where text like '%green resin%' or text like '%protected%MARKET-1%'`;
    expect(await queryAs(service.database.owner, told)).toEqual([]);
    await expect(queryAs(service.database.owner, `update withheld_text set content = '{}'`)).rejects.toMatchObject({
      code: 'BB001',
    });
  });
});

describe('observations', () => {
  const seen = { specimen: 'MARKET-1', feature: 'label', seen: 'DUNLIN 24', at: AT };

  it('are of declared features, and are corrected by a further version', async () => {
    refused(await post(as.operator, at('/observations'), { ...seen, feature: 'colour' }), 422, 'body.not-found');
    const photos = { ...seen, photos: ['0'.repeat(64)] };
    refused(await post(as.operator, at('/observations'), photos), 422, 'body.not-found');
    const kept = done(await post(as.operator, at('/observations'), seen));
    expect(kept.content.by).toBe('b-ravenscroft');
    refused(await post(as.operator, at('/observations'), seen), 409, 'state.conflict');
    const corrected = await as.operator.ask('PUT', at(`/observations/${kept.number}`), {
      headers: { 'if-match': '"1"' },
      body: { reason: 'the digits were swapped in writing', content: { ...seen, seen: 'DUNLIN 4Z' } },
    });
    expect(done(corrected)).toMatchObject({
      version: 2,
      content: { seen: 'DUNLIN 4Z' },
      earlier: [{ version: 1, content: { seen: 'DUNLIN 24' } }],
    });
    for (const [specimen, label] of [
      ['MARKET-2', 'DUNLIN 4Z'],
      ['REF-A-5', 'DUNLIN 42'],
      ['REF-A-1', 'DUNLIN 42'],
      ['REF-B-1', 'DUNLIN 42'],
    ])
      done(await post(as.operator, at('/observations'), { ...seen, specimen, seen: label }));
  });
});

describe('a characteristic that is added once results were seen', () => {
  it('is refused in the same revision, and shows as a new one that was declared after them', async () => {
    const blind = { blinded: ['b-ravenscroft'], listKeptBy: 'd-zunic' };
    const more = aComparison(COMPARISON, { blind, mayGoToCourt: true, characteristics: [BURST, MASS] });
    const same = await post(as.designer, at('/revisions'), { reason: 'they are light', content: more });
    refused(same, 409, 'state.conflict');
    expect(same.body.detail).toContain('never changes');
    const content = { ...more, revision: 2 };
    const anew = done(await post(as.designer, at('/revisions'), { reason: 'they are light', content }));
    expect(anew).toMatchObject({
      state: 'declared',
      inForce: 1,
      declaredAfterResults: true,
      before: { runs: 0, observations: 5 },
      content: { reason: 'they are light' },
    });
    expect(anew.revisions.map((one: { declaredAfterResults: boolean }) => one.declaredAfterResults)).toEqual([
      false,
      true,
    ]);
    expect(anew.differences.map(({ pointer }: { pointer: string }) => pointer)).toContain('/characteristics/1');
    const shown = await declaredDigest(as.quality, COMPARISON);
    expect(done(await post(as.quality, at('/declining'), { shown, because: 'fishing' })).state).toBe('approved');
  });
});

import { rowsItRestsOn, tables } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../database.ts';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { askToSign, fileOf, jobDone } from '../signed-report.ts';
import {
  aComparison,
  aReference,
  BURST,
  burstItem,
  declaredDigest,
  keepSuspects,
  MASS,
  reviewRuns,
  sendBurst,
} from '../suspect-case.ts';
import { tamper } from '../tamper.ts';

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
    refused(await sendBurst(as.operator, 'MARKET-1', 1210), 409, 'state.conflict');
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
      '/api/keeping',
      '/api/specimens/MARKET-1/keeping',
      at(),
    ])
      expect(JSON.stringify(await get(as.operator, address)), address).not.toMatch(/suspect|S-MARKET|Lund|"S-REF-A-1"/);
    expect((await get(as.operator, '/api/specimens?called=S-MARKET-1')).items).toEqual([]);
    for (const address of [
      '/api/lots/MARKET/sheet',
      '/api/lots/REF-A/report.pdf',
      '/api/lots/REF-A/runs/REF-A-r1',
      '/api/lots/MARKET/keeping',
    ])
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
    const change = `update withheld_text set content = content || '{"text": "Nothing."}'`;
    await expect(queryAs(service.database.owner, change)).rejects.toMatchObject({ code: 'BB001' });
    const verify = () => post(as.office, '/api/ledger/verification', {});
    expect(done(await verify()).holds).toBe(true);
    await tamper(service.database.owner, change);
    expect(done(await verify())).toMatchObject({ holds: false, table: 'protected_note' });
    expect(await as.designer.ask('GET', notes)).toMatchObject({ status: 500 });
    const back = `update withheld_text set content = case when content ? 'codes' then content - 'text' else content || $1::jsonb end`;
    await tamper(service.database.owner, back, [JSON.stringify({ text })]);
    expect((await get(as.designer, notes)).items[0].text).toBe(text);
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

describe('what it came to', () => {
  const workedOut = async () => jobDone(as.head, await as.head.ask('POST', at('/results')));

  it('is worked out as a job from what is stored, item by item, and names the digests it rests on', async () => {
    refused(await as.head.ask('GET', at('/result')), 404, 'request.not-found');
    await burstItem(as, 'MARKET-1', 1210);
    await burstItem(as, 'MARKET-2', 1180);
    await burstItem(as, 'REF-A-5', 1915);
    const { comparisonResult } = await workedOut();
    const result = await get(as.head, at('/result'));
    expect(result).toMatchObject({
      number: comparisonResult,
      revision: 1,
      changedSince: [],
      declaredAfterResults: false,
    });
    const levelsOf = (each: { specimen: string; level: string }[]) =>
      Object.fromEntries(each.map(({ specimen, level }) => [specimen, level]));
    // Their label is misspelt, and no build variant of the period has it so.
    expect(levelsOf(result.content.items)).toMatchObject({ 'MARKET-1': 'A', 'MARKET-2': 'A' });
    const [one] = result.content.characteristics;
    expect([one.reference.length, one.lots, one.items.length]).toEqual([12, 3, 3]);
    expect(levelsOf(one.each)).toEqual({ 'MARKET-1': 'B', 'MARKET-2': 'B', 'REF-A-5': 'D' });
    expect(result.content.notExamined).toEqual(['resin family', 'fibre content']);
    expect(result.content.gaps.map(({ specimen }: { specimen: string }) => specimen)).toContain('MARKET-2');
    expect(result.restsOn.runs).toHaveLength(15);
    refused(await as.operator.ask('GET', at('/result')), 403, 'auth.forbidden');
  });

  it('is locked by somebody who neither declared it nor recorded anything of it, as it was shown', async () => {
    const { number: result, sha256: shown } = await get(as.quality, at('/result'));
    const deciding = await service.signIn('also-decides', ['decide', 'record', 'define']);
    const claim = await post(as.quality, at('/conclusions'), { result, shown, note: 'MARKET-1 is a counterfeit.' });
    refused(claim, 422, 'body.text-invalid');
    expect(claim.body).toMatchObject({ pointer: '/note', found: 'counterfeit' });
    refused(await post(as.quality, at('/conclusions'), { result, shown: '0'.repeat(64) }), 412, 'version.stale');
    refused(await post(as.operator, at('/conclusions'), { result, shown }), 403, 'auth.forbidden');
    const seen = { specimen: 'REF-B-2', feature: 'label', seen: 'DUNLIN 42', at: AT };
    done(await post(deciding, at('/observations'), seen));
    refused(await post(deciding, at('/conclusions'), { result, shown }), 403, 'duty.conflict');
    // The observation came after the result.
    const late = await post(as.quality, at('/conclusions'), { result, shown });
    refused(late, 412, 'version.stale');
    expect(late.body.detail).toContain('observations');
    await workedOut();
    const now = await get(as.quality, at('/result'));
    const locked = done(await post(as.quality, at('/conclusions'), { result: now.number, shown: now.sha256 }));
    expect(locked).toMatchObject({
      state: 'concluded',
      conclusions: [{ conclusion: 1, result: now.number, signature: { person: 't-ibanez' }, inForce: true }],
    });
  });

  it('opens the codes and what was hidden, and is changed by nothing but a further conclusion that names it', async () => {
    expect((await get(as.operator, '/api/specimens/MARKET-1')).content.origin).toBe('suspect');
    expect((await get(as.operator, at('/codes'))).items).toHaveLength(1);
    expect((await get(as.operator, at('/result'))).content.level).toMatch(/^[ABC]$/);
    const seen = { specimen: 'REF-B-3', feature: 'label', seen: 'DUNLIN 42', at: AT };
    refused(await post(as.operator, at('/observations'), seen), 409, 'state.conflict');
    refused(await post(as.designer, at('/withdrawal'), { reason: 'the customer wants it so' }), 409, 'state.conflict');
    await workedOut();
    const { number: result, sha256: shown } = await get(as.quality, at('/result'));
    refused(await post(as.quality, at('/conclusions'), { result, shown }), 409, 'state.conflict');
    const anew = { result, shown, replaces: 1, reason: 'worked out again for the customer' };
    const { conclusions } = done(await post(as.quality, at('/conclusions'), anew));
    expect(conclusions.map((one: { inForce: boolean }) => one.inForce)).toEqual([false, true]);
    expect(conclusions[1]).toMatchObject({ replaces: 1, reason: 'worked out again for the customer' });
    await expect(
      queryAs(service.database.owner, `update comparison_conclusion set note = 'otherwise'`),
    ).rejects.toMatchObject({ code: 'BB001' });
  });
});

describe('the report', () => {
  it('is made of the conclusion that holds, signed, known again by anybody, and comes to the same', async () => {
    const asked = await post(as.head, at('/documents'), { kind: 'comparison report' });
    const { document: draft } = await jobDone(as.head, asked);
    const { items } = await get(as.head, `/api/documents?comparison=${COMPARISON}`);
    expect(items).toMatchObject([{ number: draft, kind: 'comparison report', comparison: COMPARISON }]);
    refused(await post(as.head, at('/documents'), { kind: 'comparison report' }), 409, 'state.conflict');
    await reviewRuns(as.head, COMPARISON);
    const { document } = await jobDone(as.head, await askToSign(as.head, draft));
    const file = await fileOf(as.head, document);
    const pdf = { 'content-type': 'application/pdf' };
    const check = done(await as.stores.ask('POST', '/api/documents/check', { body: file, headers: pdf }));
    expect(check).toMatchObject({ verdict: 'holds', recomputed: { count: 0 } });
    const { content } = await get(as.head, `/api/documents/${document}`);
    expect(content.locked).toMatchObject({ by: 'Tomás Ibáñez Quirós' });
    // Limits of the plans under which the runs were made, drawn beside the values.
    expect(content.limits.length).toBeGreaterThan(0);
    for (const { characteristic, limit } of content.limits) {
      const declared = content.case.comparison.characteristics.find(
        ({ name }: { name: string }) => name === characteristic,
      );
      expect(declared.source.characteristic).toBe(limit.characteristic);
    }
    expect(JSON.stringify(content)).not.toContain('green resin');
  });
});

describe('the package of a lot', () => {
  it('holds what was compared of it, and no note that only some may read', async () => {
    await jobDone(as.head, await as.head.ask('POST', '/api/lots/MARKET/packages'));
    const reader = service.records.read(service.lab.labId);
    const { id } = await reader.named(tables.Lot, 'MARKET');
    const names = new Set((await rowsItRestsOn(reader, tables.Lot, id)).map(({ table }) => table));
    for (const table of ['comparison_revision', 'reference_revision', 'custody_event', 'observation_version'])
      expect([...names]).toContain(table);
    for (const table of ['protected_note', 'code_list', 'withheld_text']) expect([...names]).not.toContain(table);
  });
});

describe('words that are not for a lab to say', () => {
  it('are refused in free text with the reason, and stand in what was read from an item', async () => {
    const asked = aComparison('CLAIMS', { question: 'Is item MARKET-1 a fake?', features: [] });
    const answer = await post(as.designer, '/api/comparisons', asked);
    refused(answer, 422, 'body.text-invalid');
    expect(answer.body).toMatchObject({ pointer: '/question', found: 'fake' });
    expect(answer.body.detail).toContain('how well it agrees');
  });
});

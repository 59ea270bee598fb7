import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { storedLot } from '@breakbook/service';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { enterLot, type People, signInPeople, taken } from './entered-lot.fixture.ts';
import { folder } from './lot-folder.fixture.ts';

const { bundle } = folder('dunlin-42-preproduction');
const { sampling, ...lotBody } = bundle.lot;
const lot = { ...lotBody, customer: bundle.customer };

let service: TestService;
let people: People;
let designer: SignedInCaller;
let quality: SignedInCaller;
let metrologist: SignedInCaller;
let stores: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  people = await signInPeople(service, bundle);
  designer = people.called('i-sorbo');
  quality = people.called('t-ibanez');
  metrologist = people.called('c-marandu');
  stores = people.called('d-zunic');
}, 60_000);
afterAll(() => service.close());

describe('a lab that enters over HTTP what a lot folder says', () => {
  it('takes each definition from the person who has the duty, and answers it with number and version', async () => {
    const { product, lot: entered, several } = await enterLot(bundle, people);
    expect(product).toEqual({
      key: 'dunlin-42',
      number: 1,
      version: 1,
      at: expect.stringMatching(/Z$/),
      by: 'i-sorbo',
      content: bundle.product,
    });
    expect(entered).toMatchObject({ closed: false, sampling });
    expect(several.items).toHaveLength(bundle.specimens.length - 1);
  });

  it('holds the same lot afterwards as the folder does', async () => {
    const { bundle: stored } = await storedLot(service.records.read(service.lab.labId), lot.lot);
    expect(stored.product).toEqual(bundle.product);
    expect(stored.lot).toEqual(bundle.lot);
    expect(stored.specimens).toEqual(bundle.specimens);
    expect(stored.plan).toEqual(bundle.plan);
    const byName = <T extends { revision: number }>(all: T[], name: keyof T) =>
      [...all].sort((one, other) => (`${one[name]} ${one.revision}` < `${other[name]} ${other.revision}` ? -1 : 1));
    expect(byName(stored.limits, 'limit')).toEqual(byName(bundle.limits, 'limit'));
    expect(byName(stored.methods, 'method')).toEqual(byName(bundle.methods, 'method'));
  });

  it('leaves one ledger entry for each change, in the name of whoever made it', async () => {
    const { body } = await designer.ask('GET', '/api/ledger?limit=200');
    const products = body.items.filter(({ action }: { action: string }) => action === 'product defined');
    expect(products).toMatchObject([{ by: 'i-sorbo' }]);
    const head = await designer.ask('GET', '/api/ledger/head');
    expect(head.body).toMatchObject({ sequence: body.items.length, hash: body.items.at(-1).hash });
    const full = await designer.ask('GET', `/api/ledger/${products[0].sequence}`);
    expect(full.body.text).toContain('"product defined"');
    expect(full.body.previous).toBe(body.items[products[0].sequence - 2].hash);
  });
});

describe('what is said of a thing', () => {
  it('is changed by a version that names the one it follows and why; all stay readable', async () => {
    const address = '/api/products/dunlin-42';
    const read = await designer.ask('GET', address);
    expect(read.headers.get('etag')).toBe('"1"');
    const content = { ...bundle.product, description: 'Hooked composite rim, described again.' };
    const change = { reason: 'the description was too long', content };

    expect(await designer.ask('PUT', address, { body: change })).toMatchObject({
      status: 428,
      body: { code: 'version.required' },
    });
    const changed = await designer.ask('PUT', address, { body: change, headers: { 'if-match': '"1"' } });
    expect(changed).toMatchObject({ status: 200, body: { version: 2, reason: change.reason, content } });
    expect(changed.headers.get('etag')).toBe('"2"');
    expect(await designer.ask('PUT', address, { body: change, headers: { 'if-match': '"1"' } })).toMatchObject({
      status: 412,
      body: { code: 'version.stale' },
    });
    const { body: history } = await designer.ask('GET', `${address}/history`);
    expect(history).toMatchObject({
      items: [
        { version: 1, by: 'i-sorbo', content: bundle.product },
        { version: 2, by: 'i-sorbo', reason: change.reason, content },
      ],
      next: null,
    });
  });

  it('needs a reason, keeps its name, and stays where it belongs', async () => {
    const headers = { 'if-match': '"1"' };
    const [specimen] = bundle.specimens;
    const address = `/api/specimens/${specimen?.specimen}`;
    const put = (content: unknown, reason?: string) =>
      stores.ask('PUT', address, { headers, body: { content, ...(reason ? { reason } : {}) } });
    expect(await put(specimen)).toMatchObject({
      status: 422,
      body: { code: 'body.missing-field', pointer: '/reason' },
    });
    expect(await put({ ...specimen, specimen: '999' }, 'other')).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/content/specimen', expected: specimen?.specimen },
    });
    await taken(stores, '/api/lots', { ...lot, lot: 'D42-PP9' });
    expect(await put({ ...specimen, lot: 'D42-PP9' }, 'other lot')).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/content/lot' },
    });
  });

  it('is written once, when two change the same version at once', async () => {
    const address = '/api/sensors';
    const sensor = { sensor: 'PT-RACE', description: 'pressure transducer', serial: 'R-1' };
    await taken(metrologist, address, sensor);
    const answers = await Promise.all(
      ['one', 'two', 'three', 'four'].map((serial) =>
        metrologist.ask('PUT', `${address}/PT-RACE`, {
          headers: { 'if-match': '"1"' },
          body: { reason: `serial ${serial}`, content: { ...sensor, serial } },
        }),
      ),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412, 412]);
    const created = await Promise.all(
      [1, 2, 3].map(() => metrologist.ask('POST', address, { body: { ...sensor, sensor: 'PT-TWICE' } })),
    );
    expect(created.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  });
});

describe('a revision', () => {
  const next = { ...bundle.plan, revision: bundle.plan.revision + 1, title: 'The same, revised' };

  it('never changes; a new text has the next number', async () => {
    const address = `/api/plans/${bundle.plan.plan}/revisions`;
    const post = (content: unknown) => designer.ask('POST', address, { body: { reason: 'a better title', content } });
    expect(await post({ ...next, revision: 1 })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/content/revision', expected: '2' },
    });
    expect(await post({ ...next, revision: 4 })).toMatchObject({ status: 409, body: { expected: '2' } });
    expect(await post(next)).toMatchObject({ status: 201, body: { version: 2, content: next } });
    expect((await designer.ask('GET', `/api/plans/${bundle.plan.plan}`)).body.content).toEqual(next);
    expect((await designer.ask('GET', `${address}/1`)).body.content).toEqual(bundle.plan);
    for (const revision of ['3', '0', 'one', '1.0'])
      expect(await designer.ask('GET', `${address}/${revision}`)).toMatchObject({
        status: 404,
        body: { code: 'request.not-found' },
      });
  });

  it('of a plan is frozen by the first run under it, and says which', async () => {
    const reader = service.records.read(service.lab.labId);
    const plan = await reader.named(tables.Plan, bundle.plan.plan);
    const [revision] = await reader.history(tables.PlanRevision, plan.id);
    const [line] = await reader.find(tables.PlanLine, { planRevisionId: revision?.id ?? '' });
    const [run] = bundle.runs;
    const specimen = await reader.named(tables.Specimen, run?.specimen ?? '');
    const { files: _f, measurements: _m, examination: _e, validity: _v, ...body } = { ...bundle.runs[0] };
    await service.records.change(service.lab, 'run recorded', async (rows) => {
      const noun = await rows.add(tables.Run, { key: 'R-1', specimenId: specimen.id });
      await rows.addVersion(tables.RunVersion, noun.id, {
        planLineId: line?.id ?? '',
        methodRevisionId: line?.methodRevisionId ?? '',
        rigId: null,
        layoutRevisionId: null,
        operatorId: service.lab.personId,
        startedAt: new Date('2026-09-22T08:00:00Z'),
        content: { ...body, run: 'R-1' } as tables.RunVersion['content'],
      });
    });
    expect(
      await designer.ask('POST', `/api/plans/${bundle.plan.plan}/revisions`, {
        body: { reason: 'changed after the test', content: { ...bundle.plan, title: 'changed' } },
      }),
    ).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', detail: expect.stringContaining('frozen, because run R-1 was made under it') },
    });
  });

  it('of a limit is approved by somebody else than proposes it', async () => {
    const [limit] = bundle.limits;
    expect(
      await quality.ask('POST', '/api/limits', { body: { ...limit, limit: 'OWN', approvedBy: 't-ibanez' } }),
    ).toMatchObject({ status: 403, body: { code: 'duty.conflict', pointer: '/approvedBy' } });
  });
});

describe('what a body names must be there', () => {
  const [line] = bundle.plan.lines;
  const [limit] = bundle.limits;
  const [method] = bundle.methods;
  const [layout] = bundle.layouts;
  const [calibration] = bundle.calibrations;
  const [specimen] = bundle.specimens;
  const plan = (change: object) => ({ ...bundle.plan, plan: 'P-X', revision: 1, ...change });
  const planLine = (change: object) => plan({ lines: [{ ...line, ...change }] });
  const nowhere = { limit: 'NOWHERE', revision: 1 };

  it.each([
    ['/api/plans', plan({ product: 'none' }), '/product', 'body.not-found'],
    ['/api/plans', plan({ approvedBy: 'nobody' }), '/approvedBy', 'body.not-found'],
    ['/api/plans', planLine({ method: 'NONE' }), '/lines/0/methodRevision', 'body.not-found'],
    ['/api/plans', planLine({ methodRevision: 99 }), '/lines/0/methodRevision', 'body.not-found'],
    ['/api/plans', planLine({ characteristic: 'noSuch' }), '/lines/0/characteristic', 'meta.unknown'],
    ['/api/plans', planLine({ limits: [...(line?.limits ?? []), nowhere] }), '/lines/0/limits/2', 'body.not-found'],
    ['/api/plans', plan({ lines: [line, line] }), '/lines/1/line', 'meta.duplicate'],
    ['/api/limits', { ...limit, limit: 'L-X', approvedBy: 'nobody' }, '/approvedBy', 'body.not-found'],
    ['/api/limits', { ...limit, limit: 'L-X', approvedBy: 'set-up' }, '/approvedBy', 'body.not-found'],
    ['/api/methods', { ...method, method: 'M-X', approvedBy: 'nobody' }, '/approvedBy', 'body.not-found'],
    ['/api/layouts', { ...layout, layout: 'Y-X', rig: 'NONE' }, '/rig', 'body.not-found'],
    ['/api/layouts', { ...layout, layout: 'Y-X' }, '/rig', 'state.conflict'],
    ['/api/calibrations', { ...calibration, calibration: 'C-X', sensor: 'NONE' }, '/sensor', 'body.not-found'],
    ['/api/calibrations', { ...calibration, calibration: 'C-X', due: calibration?.date }, '/due', 'body.range'],
    ['/api/specimens', { ...specimen, specimen: 'S-X', lot: 'NONE' }, '/lot', 'body.not-found'],
    ['/api/specimens', { ...specimen, specimen: 'S-X' }, '/serial', 'state.conflict'],
    ['/api/lots', { ...lot, lot: 'L-X', product: 'NONE' }, '/product', 'body.not-found'],
    [
      '/api/lots',
      { ...lot, lot: 'L-X', sampling: { ...sampling, drawnBy: 'nobody' } },
      '/sampling/drawnBy',
      'body.not-found',
    ],
    ['/api/lots', { ...lot, lot: 'L-X', madeTo: '2020-01-01' }, '/madeTo', 'body.range'],
    [
      '/api/specimens/several',
      {
        specimens: [
          { ...specimen, specimen: 'S-Y', serial: 'S-Y' },
          { ...specimen, specimen: 'S-Z', lot: 'NONE' },
        ],
      },
      '/specimens/1/lot',
      'body.not-found',
    ],
  ])('%s (%#): told by its place', async (address, body, pointer, code) => {
    const caller = address.includes('calibrations') ? metrologist : /lots|specimens/.test(address) ? stores : designer;
    const before = (await designer.ask('GET', '/api/ledger/head')).body;
    const answer = await caller.ask('POST', address, { body });
    expect(answer.body).toMatchObject({ code, pointer });
    expect(answer.body.detail).toContain(pointer);
    expect((await designer.ask('GET', '/api/ledger/head')).body).toEqual(before);
  });

  it('is told all at once', async () => {
    const { body } = await designer.ask('POST', '/api/plans', {
      body: plan({ product: 'none', approvedBy: 'nobody', lines: [{ ...line, methodRevision: 99 }] }),
    });
    expect(body.errorCount).toBe(3);
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/product',
      '/approvedBy',
      '/lines/0/methodRevision',
    ]);
  });
});

describe('a list', () => {
  const keysOf = ({ body }: { body: { items: { key: string }[] } }) => body.items.map(({ key }) => key);

  it('comes in pieces that leave nothing out and nothing twice, in both orders', async () => {
    const { body: whole } = await stores.ask('GET', `/api/specimens?lot=${lot.lot}&limit=200`);
    expect(whole.next).toBeNull();
    expect(whole.items.map(({ key }: { key: string }) => key)).toEqual(bundle.specimens.map((one) => one.specimen));
    for (const order of ['oldest', 'newest']) {
      const keys: string[] = [];
      for (let after = ''; ; ) {
        const answer = await stores.ask('GET', `/api/specimens?lot=${lot.lot}&limit=4&order=${order}${after}`);
        expect(answer.body.items.length).toBeLessThanOrEqual(4);
        keys.push(...keysOf(answer));
        if (answer.body.next === null) break;
        after = `&after=${answer.body.next}`;
      }
      const expected = bundle.specimens.map((one) => one.specimen);
      expect(keys).toEqual(order === 'oldest' ? expected : expected.reverse());
    }
  });

  it('of specimens called so holds the one of this code, or those that carry the serial now', async () => {
    const [one] = bundle.specimens;
    const { body } = await stores.ask('GET', `/api/specimens?called=${encodeURIComponent(one?.serial ?? '')}`);
    expect(keysOf({ body })).toEqual([one?.specimen]);
    expect(keysOf(await stores.ask('GET', `/api/specimens?called=${one?.specimen}`))).toEqual([one?.specimen]);
    const other = await stores.ask('GET', '/api/specimens?called=nobody%20numbered%20so');
    expect(other.body).toEqual({ items: [], next: null });
  });

  it('of lots tells of one that was never evaluated that it was not', async () => {
    const { body } = await stores.ask('GET', '/api/lots?product=dunlin-42');
    expect(body.items[0]).toMatchObject({
      lot: lot.lot,
      closed: false,
      product: { product: 'dunlin-42', name: 'Dunlin 42' },
      evaluation: { notEvaluated: { because: 'this lot was never evaluated' } },
    });
  });
});

describe('a lot', () => {
  it('that is closed takes no specimen until it is opened again', async () => {
    const specimen = { ...bundle.specimens[0], specimen: 'S-LATE', serial: 'LATE-1' };
    const address = `/api/lots/${lot.lot}`;
    const closing = { body: { reason: 'the release is decided' } };
    expect(await stores.ask('POST', `${address}/closing`, closing)).toMatchObject({
      status: 200,
      body: { closed: true },
    });
    expect(await stores.ask('POST', `${address}/closing`, closing)).toMatchObject({
      status: 409,
      body: { code: 'state.conflict' },
    });
    expect((await stores.ask('GET', address)).body.closed).toBe(true);
    expect(await stores.ask('POST', '/api/specimens', { body: specimen })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/lot' },
    });
    await stores.ask('POST', `${address}/opening`, { body: { reason: 'closed by mistake' } });
    await taken(stores, '/api/specimens', specimen);
  });

  it('gives no more specimens than it holds', async () => {
    const small = { ...lot, lot: 'SMALL', size: 1 };
    await taken(stores, '/api/lots', small);
    await taken(stores, '/api/specimens', { ...bundle.specimens[0], specimen: 'SM-1', lot: 'SMALL' });
    expect(
      await stores.ask('POST', '/api/specimens', {
        body: { ...bundle.specimens[0], specimen: 'SM-2', serial: 'SM-2', lot: 'SMALL' },
      }),
    ).toMatchObject({ status: 409, body: { code: 'state.conflict', pointer: '/lot' } });
  });

  it('has its sampling record corrected by a version; whoever built a specimen did not draw it', async () => {
    const address = `/api/lots/${lot.lot}/sampling`;
    expect((await stores.ask('GET', address)).headers.get('etag')).toBe('"1"');
    const content = { ...sampling, place: 'Finished-goods store, rack 5' };
    const put = (body: object) => stores.ask('PUT', address, { headers: { 'if-match': '"1"' }, body });
    expect(await put({ reason: 'the wrong rack', content })).toMatchObject({
      status: 200,
      body: { version: 2, content },
    });
    await taken(stores, '/api/specimens', {
      ...bundle.specimens[0],
      specimen: 'S-BUILT',
      serial: 'BUILT-1',
      build: { 'laid up by': 'c-marandu' },
    });
    expect(
      await stores.ask('PUT', address, {
        headers: { 'if-match': '"2"' },
        body: { reason: 'somebody else drew', content: { ...content, drawnBy: 'c-marandu' } },
      }),
    ).toMatchObject({ status: 403, body: { code: 'duty.conflict', pointer: '/content/drawnBy' } });
  });
});

describe('a sensor', () => {
  it('sits in one place at a time, and a channel is fed by one sensor', async () => {
    const [rig] = bundle.rigs;
    const [placement] = rig?.placements ?? [];
    const address = `/api/rigs/${rig?.rig}/placements`;
    const { body } = await metrologist.ask('GET', address);
    const there = body.items[0];
    expect(there.content).toEqual(placement);

    const elsewhere = { ...placement, channel: 'otherChannel', from: '2099-01-01' };
    const other = { ...placement, sensor: 'PT-RACE', from: '2099-01-01' };
    const unlimited = placement?.to === undefined;
    expect(unlimited).toBe(true);
    expect(await metrologist.ask('POST', address, { body: elsewhere })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/sensor' },
    });
    expect(await metrologist.ask('POST', address, { body: other })).toMatchObject({
      status: 409,
      body: { code: 'state.conflict', pointer: '/channel' },
    });
    const ended = await metrologist.ask('PUT', `${address}/${there.placement}`, {
      headers: { 'if-match': '"1"' },
      body: { reason: 'moved', content: { ...placement, to: '2099-01-01' } },
    });
    expect(ended).toMatchObject({ status: 200, body: { version: 2 } });
    // Moved within the day: the last day here is the first there.
    await taken(metrologist, address, elsewhere);
    await taken(metrologist, address, other);
  });
});

describe('a lab', () => {
  it('is the only one its people can see, and keeps its name', async () => {
    const office = await service.signIn('y-hamasaki');
    const { body } = await office.ask('GET', '/api/labs');
    expect(body.items).toMatchObject([{ version: 1, content: { lab: 'saltmarsh' } }]);
    expect(await office.ask('GET', '/api/labs/elsewhere')).toMatchObject({ status: 404 });
    const put = (content: object) =>
      office.ask('PUT', '/api/labs/saltmarsh', { headers: { 'if-match': '"1"' }, body: { reason: 'moved', content } });
    expect(await put({ ...body.items[0].content, zone: 'Nowhere/None' })).toMatchObject({
      status: 422,
      body: { code: 'body.format', pointer: '/content/zone' },
    });
    expect(await put({ ...body.items[0].content, zone: 'Europe/Lisbon' })).toMatchObject({ status: 200 });
  });
});

describe('the ledger', () => {
  it('is verified by an auditor, from the first entry to the last byte', async () => {
    const auditor = await service.signIn('y-hamasaki');
    const { status, body } = await auditor.ask('POST', '/api/ledger/verification');
    expect(status).toBe(200);
    expect(body).toMatchObject({ holds: true, head: (await auditor.ask('GET', '/api/ledger/head')).body });
    expect(await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore())).toEqual(body);
  });

  it('shows a tampered row by its entry', async () => {
    const { queryAs } = await import('../database.ts');
    await queryAs(service.database.owner, 'alter table sensor_version disable trigger refuse_change');
    await queryAs(
      service.database.owner,
      `update sensor_version set content = jsonb_set(content, '{serial}', '"forged"') where version = 1 and content ->> 'sensor' = 'PT-RACE'`,
    );
    const auditor = await service.signIn('y-hamasaki');
    const { status, body } = await auditor.ask('POST', '/api/ledger/verification');
    expect(status).toBe(200);
    expect(body).toMatchObject({
      holds: false,
      table: 'sensor_version',
      because: expect.stringMatching(/is not what/),
    });
  });
});

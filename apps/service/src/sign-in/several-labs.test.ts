import 'reflect-metadata';
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Duty, LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { type Actor, newId, PostgresRawStore } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bodySchemaOf, type Described, leastOf, openObjects } from '../../../../tests/body-from-schema.ts';
import { queryAs } from '../../../../tests/database.ts';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { aComparison } from '../../../../tests/suspect-case.ts';
import { importLot, labOf } from '../lots/import-lot.js';
import { ROUTE_DUTIES } from './route-duties.fixture.js';

const FOLDER = fileURLToPath(new URL('../../../../sample-runs/dunlin-42-preproduction/', import.meta.url));
const SAMPLE = readLotFolder(
  new Map(LOT_FOLDER_DOCUMENTS.map((file) => [file, fs.readFileSync(`${FOLDER}${file}`)] as const)),
);
/** The sample lot with one of its runs, in a lab of its own. */
const BUNDLE = { ...SAMPLE, lab: { ...SAMPLE.lab, lab: 'overland' }, runs: SAMPLE.runs.slice(0, 1) };
const TECHNICAL = Duty.exclude(['send', 'administer', 'audit']).options;

let service: TestService;
let elsewhere: Actor;
/** Of the first lab, with every duty there is between the two of them. */
let ours: { technical: SignedInCaller; administrator: SignedInCaller };
/** Ids of the other lab, by the names that routes give them. */
let theirs: Record<string, string>;
let described: Described;

beforeAll(async () => {
  service = await startTestService();
  await importLot(service.records, new PostgresRawStore(), BUNDLE, (run) =>
    (BUNDLE.runs.find((one) => one.run === run)?.files ?? []).map(({ name }) => ({
      name,
      bytes: fs.readFileSync(`${FOLDER}${name}`),
    })),
  );
  elsewhere = await labOf(service.records, BUNDLE);
  const there = { lab: elsewhere, key: 'overland' };
  const clerk = await service.signIn('clerk', ['decide', 'issue', 'draw'], there);
  const { body: job } = await clerk.ask('POST', `/api/lots/${BUNDLE.lot.lot}/evaluations`);
  await ended(clerk, job.id);
  theirs = await theirIds(clerk, job.id);
  const here = { key: 'saltmarsh' };
  ours = {
    technical: await service.signIn('technical', [...TECHNICAL, 'audit'], here),
    administrator: await service.signIn('administrator', ['administer', 'audit'], here),
  };
  described = (await service.anonymous.ask('GET', '/api/openapi.json')).body;
}, 180_000);
afterAll(() => service.close());

async function ended(clerk: SignedInCaller, job: string): Promise<void> {
  for (let waited = 0; waited < 600; waited += 1) {
    const { state } = (await clerk.ask('GET', `/api/jobs/${job}`)).body;
    if (state !== 'waiting' && state !== 'running') return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`Job ${job} goes on after a minute.`);
}

async function theirIds(clerk: SignedInCaller, job: string): Promise<Record<string, string>> {
  const { items } = (await clerk.ask('GET', '/api/me/sessions')).body;
  const [run] = BUNDLE.runs;
  return {
    lab: 'overland',
    lot: BUNDLE.lot.lot,
    product: BUNDLE.product.product,
    method: BUNDLE.methods[0]?.method ?? '',
    layout: BUNDLE.layouts[0]?.layout ?? '',
    limit: BUNDLE.limits[0]?.limit ?? '',
    plan: BUNDLE.plan.plan,
    revision: '1',
    rig: BUNDLE.rigs[0]?.rig ?? '',
    sensor: BUNDLE.sensors[0]?.sensor ?? '',
    calibration: BUNDLE.calibrations[0]?.calibration ?? '',
    specimen: BUNDLE.specimens[0]?.specimen ?? '',
    run: run?.run ?? '',
    person: 'i-sorbo',
    channel: 'rimPressure',
    table: 'OLD-1',
    reference: 'REF-1',
    comparison: 'COMP-1',
    placement: '1',
    number: '1',
    n: '1',
    attachment: '1',
    sequence: '1',
    id: job,
    session: items[0].id,
    passkey: await aPasskeyOf(clerk.personId),
    token: 'none-such',
  };
}

async function aPasskeyOf(personId: string): Promise<string> {
  const id = newId();
  await queryAs(
    service.database.owner,
    `insert into passkey (lab_id, id, person_id, name, credential, public_key, transports, uses, added_at)
     values ('${elsewhere.labId}', '${id}', '${personId}', 'stick', 'YQ', 'YQ', '[]', 0, now())`,
  );
  return id;
}

/** Names that nobody has anywhere, of the same kind. */
const NOBODYS: Record<string, string> = {
  revision: '1',
  placement: '999999',
  number: '999999',
  n: '999999',
  attachment: '999999',
  sequence: '999999',
  id: '01980000-0000-7000-8000-000000000000',
  session: '01980000-0000-7000-8000-000000000000',
  passkey: '01980000-0000-7000-8000-000000000000',
};

/** Read in the tests, since routes are registered when the service starts. */
function routes(): { route: string; method: string; url: string }[] {
  return service.routes
    .filter(({ method }) => method !== 'HEAD')
    .map(({ method, url }) => ({ route: `${method} ${url}`, method, url }));
}

function paramsOf(url: string): string[] {
  return [...url.matchAll(/:([A-Za-z]+)/g)].map(([, name = '']) => name);
}

async function asked(method: string, url: string, names: Record<string, string>): Promise<Answer> {
  const duty = ROUTE_DUTIES[`${method} ${url}`];
  const caller = duty?.includes('administer') ? ours.administrator : ours.technical;
  const path = url.replaceAll(/:([A-Za-z]+)/g, (_, name: string) => encodeURIComponent(names[name] ?? 'none-such'));
  const schema = bodySchemaOf(described, method, url);
  return caller.ask(method, path, {
    ...(schema ? { body: { ...(leastOf(described, schema) as object), ...fitting(url, names) } } : {}),
    headers: method === 'GET' ? {} : { 'if-match': '"1"', 'idempotency-key': newId() },
  });
}

/** Contents whose rules a form alone does not tell, under the name that the address has. */
function fitting(url: string, names: Record<string, string>): object {
  const named = <K extends string>(noun: K, content: object) => ({
    content: { ...content, [noun]: names[noun] ?? 'none-such' },
  });
  if (url === '/api/products/:product') return named('product', BUNDLE.product);
  if (url === '/api/specimens/:specimen') return named('specimen', BUNDLE.specimens[0] ?? {});
  if (url === '/api/methods/:method/revisions') return named('method', BUNDLE.methods[0] ?? {});
  if (url === '/api/plans/:plan/revisions') return named('plan', BUNDLE.plan);
  if (url === '/api/comparisons/:comparison/revisions')
    return { content: aComparison(names.comparison ?? 'none-such') };
  if (url === '/api/lots/:lot/what-ifs') return { plan: { plan: names.plan ?? 'none-such', revision: 1 } };
  if (url === '/api/safety-flags/:n')
    return {
      content: {
        ...{ title: 'x', reason: 'x', seen: 'x', doneAtOnce: 'x', runs: [], nonconformities: [], serials: [] },
        lots: [names.lot ?? 'none-such'],
      },
    };
  return {};
}

const headOf = async (labId: string) =>
  queryAs(service.database.owner, `select sequence, hash from ledger_head where lab_id = '${labId}'`);

/** The ledger of a lab begins with its first entry, whose number is the same in all. */
const SAME_NUMBER_HERE = ['GET /api/ledger/:sequence', 'GET /api/ledger/:sequence/proof'];

describe('signing in where there are several labs', () => {
  const signIn = (body: object) => service.anonymous.ask('POST', '/api/sign-in', { body });

  it('names the lab; the same name in two labs is two people', async () => {
    const { passphrase } = ours.technical;
    expect(await signIn({ person: 'technical', passphrase })).toMatchObject({
      status: 422,
      body: { code: 'body.missing-field', pointer: '/lab' },
    });
    expect((await signIn({ lab: 'saltmarsh', person: 'technical', passphrase })).body.lab.lab).toBe('saltmarsh');
    const namesake = await service.signIn('technical', ['record'], { lab: elsewhere, key: 'overland' });
    expect((await namesake.ask('GET', '/api/me')).body).toMatchObject({ lab: { lab: 'overland' }, duties: ['record'] });
  });

  it('says of a lab that is not there what it says of a wrong passphrase, and counts tries alike', async () => {
    const said = ({ status, body }: Answer) => [status, { ...body, instance: undefined }];
    const wrong = await signIn({ lab: 'saltmarsh', person: 'technical', passphrase: 'wheels are round and break' });
    const unknown = await signIn({ lab: 'no-such', person: 'technical', passphrase: 'wheels are round and break' });
    expect(said(unknown)).toEqual(said(wrong));
    const answers = [];
    for (let n = 0; n < 8; n += 1) answers.push(await signIn({ lab: 'no-such', person: 'technical', passphrase: 'x' }));
    expect(answers.at(-1)?.status).toBe(429);
  });
});

describe('what belongs to another lab', () => {
  it('has a name for every id that a route takes', () => {
    const params = new Set(routes().flatMap(({ url }) => paramsOf(url)));
    expect([...params].filter((name) => !theirs[name])).toEqual([]);
  });

  it('is not there, on every route that takes an id: the answer is that to an id nobody has', async () => {
    const before = await headOf(elsewhere.labId);
    const tried: string[] = [];
    const wrong: string[] = [];
    await queryAs(service.database.owner, 'update session set confirmed_at = now(), second_at = now()');
    for (const { route, method, url } of routes()) {
      if (paramsOf(url).length === 0 || SAME_NUMBER_HERE.includes(route)) continue;
      const [answer, nobodys] = [await asked(method, url, theirs), await asked(method, url, NOBODYS)];
      tried.push(route);
      const same = answer.status === nobodys.status && answer.body?.code === nobodys.body?.code;
      const told = JSON.stringify(answer.body ?? '');
      if (answer.status !== 404 || !same || told.includes(elsewhere.labId))
        wrong.push(
          `${route}: ${answer.status} ${answer.body?.code} ${answer.body?.detail} (nobody's: ${nobodys.status})`,
        );
    }
    expect(wrong).toEqual([]);
    expect(tried.length).toBeGreaterThan(80);
    expect(await headOf(elsewhere.labId)).toEqual(before);
  }, 120_000);

  it('stands in no list, and in no answer that takes no id', async () => {
    const marks = [BUNDLE.lot.lot, 'overland', theirs.run, theirs.id, 'i-sorbo', elsewhere.labId, 'clerk'];
    for (const { route, method, url } of routes()) {
      if (method !== 'GET' || paramsOf(url).length > 0 || url === '/api/openapi.json') continue;
      for (const caller of Object.values(ours)) {
        const answer = await caller.ask('GET', url);
        const told = JSON.stringify(answer.body ?? '');
        expect(
          marks.filter((mark) => mark && told.includes(`"${mark}"`)),
          route,
        ).toEqual([]);
      }
    }
  });

  it.each(['undefined', 'null', '*', '%2A', '[]', '..%2F', '%00', "' or 1=1 --", '-1', '0x1'])(
    'is not found by %j in the place of an id either',
    async (id) => {
      for (const { route, method, url } of routes()) {
        const params = paramsOf(url);
        if (method !== 'GET' || params.length === 0) continue;
        const path = url.replaceAll(/:([A-Za-z]+)/g, () => encodeURIComponent(decodeURIComponent(id)));
        const { status, body } = await ours.technical.ask('GET', path);
        const refused = status === 404 || status === 400 || status === 422 || status === 403;
        expect(refused, `${route}: ${status} ${body?.code}`).toBe(true);
      }
    },
    60_000,
  );
});

describe('a body', () => {
  const PRIVILEGED = [
    'labId',
    'lab_id',
    'personId',
    'by',
    'duties',
    'administer',
    'isAdmin',
    'version',
    'number',
    'at',
  ];
  /** Its form is that of the method it names; the methods' own tests send them what they do not name. */
  const FORM_OF_A_METHOD = 'POST /api/compute';
  const withBodies = () =>
    routes().filter(({ route, method, url }) => route !== FORM_OF_A_METHOD && bodySchemaOf(described, method, url));

  it('takes no field that its form does not name, at any depth', () => {
    const open = withBodies().flatMap(({ route, method, url }) =>
      openObjects(described, bodySchemaOf(described, method, url) ?? {}).map((at) => `${route} ${at}`),
    );
    expect(open).toEqual([]);
  });

  it('with a privileged field, __proto__, constructor or a doubled key is refused, and nothing happens', async () => {
    await queryAs(service.database.owner, 'update session set confirmed_at = now(), second_at = now()');
    const ledgers = () => queryAs(service.database.owner, 'select lab_id, sequence, hash from ledger_head order by 1');
    const before = await ledgers();
    const wrong: string[] = [];
    let sent = 0;
    for (const { route, method, url } of withBodies()) {
      const duty = ROUTE_DUTIES[route];
      const caller = duty?.includes('administer') ? ours.administrator : ours.technical;
      const schema = bodySchemaOf(described, method, url) ?? {};
      const body = leastOf(described, schema) as Record<string, unknown>;
      const path = url.replaceAll(/:([A-Za-z]+)/g, 'none');
      const rest = Object.keys(body).length === 0 ? '}' : `,${JSON.stringify(body).slice(1)}`;
      const headers = { 'if-match': '"1"', 'idempotency-key': newId() };
      const send = async (text: string, code: string, what: string) => {
        sent += 1;
        const answer = await caller.ask(method, path, { body: text, headers });
        const codes = [answer.body?.code, ...(answer.body?.errors ?? []).map((one: { code: string }) => one.code)];
        if (!codes.includes(code)) wrong.push(`${route} ${what}: ${answer.status} ${answer.body?.code}`);
      };
      const more = PRIVILEGED.filter((name) => !(name in (body ?? {})) && !namesField(schema, name));
      await send(
        JSON.stringify({ ...body, ...Object.fromEntries(more.map((name) => [name, ['administer']])) }),
        'body.unknown-field',
        'privileged fields',
      );
      await send(`{"__proto__":{"duties":["administer"]}${rest}`, 'body.text-invalid', '__proto__');
      await send(`{"constructor":{"prototype":{}}${rest}`, 'body.unknown-field', 'constructor');
      await send('{"reason":"one","reason":"another"}', 'json.duplicate-key', 'a doubled key');
    }
    expect(wrong).toEqual([]);
    expect(sent).toBeGreaterThan(150);
    expect(await ledgers()).toEqual(before);
    expect(({} as Record<string, unknown>).duties).toBeUndefined();
  }, 120_000);

  function namesField(schema: object, name: string): boolean {
    return JSON.stringify(schema).includes(`"${name}":`);
  }
});

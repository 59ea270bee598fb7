import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Duty } from '@breakbook/lab';
import { type Actor, foundLab, type Records, tables } from '@breakbook/records';
import { type RunningService, type ServiceOptions, startService } from '@breakbook/service';
import { givePassphrase } from '../apps/service/src/sign-in/credentials.ts';
import { hashPassphrase } from '../apps/service/src/sign-in/passphrase-hash.ts';
import { codeOf, stepAt } from '../apps/service/src/sign-in/second-factor/one-time-code.ts';
import { SealedSecrets } from '../apps/service/src/sign-in/second-factor/sealed-secrets.ts';
import { wrongHeaders } from './answer-headers.ts';
import { type TestDatabase, testDatabase } from './database.ts';

/** What a service answered, its body read as what it says it is. */
export interface Answer {
  status: number;
  headers: Headers;
  // biome-ignore lint/suspicious/noExplicitAny: a test looks into whatever came back.
  body: any;
}

export interface Asking {
  /** Sent as JSON, but for a string, bytes or a form, which are sent as they are. */
  body?: unknown;
  headers?: Record<string, string>;
}

/** Somebody, or nobody, who asks the service. */
export interface Caller {
  ask(method: string, path: string, asking?: Asking): Promise<Answer>;
  /** The same as the platform's own fetch, with the caller's cookie or token. */
  fetch(path: string, init?: RequestInit): Promise<Response>;
}

export interface SignedInCaller extends Caller {
  person: string;
  personId: string;
  passphrase: string;
  /** As it is now. */
  readonly cookie: string;
  /** Gives passphrase and second factor again, for routes that need them fresh. */
  again(): Promise<void>;
}

export interface TestService extends RunningService {
  database: TestDatabase;
  /** Where its keys lie. */
  keys: { folder: string };
  records: Records;
  /** The lab, and the program that founded it. */
  lab: Actor;
  anonymous: Caller;
  /**
   * Signs somebody in over HTTP, with a second factor where their duties need one; adds them with these duties where
   * nobody is called so yet. In the one lab, or the one named.
   */
  signIn(person: string, duties?: Duty[], inLab?: { lab?: Actor; key?: string }): Promise<SignedInCaller>;
  /** Somebody who calls with this token. */
  withToken(token: string): Caller;
}

/** Far above what any test asks for. */
const NO_LIMITS = { perMinute: 1_000_000, signInsPerMinute: 1_000_000 };

/**
 * The service on a database of its own with one empty lab, on a free port. Call it in `beforeAll`, and `close` in
 * `afterAll`. Give it a database that has a lab already, and it is that lab's service.
 */
export async function startTestService(
  options: Partial<ServiceOptions> & { on?: TestDatabase } = {},
): Promise<TestService> {
  const { on, ...rest } = options;
  const database = on ?? (await testDatabase());
  const { records } = database;
  const lab = (await founderOf(records)) ?? (await anEmptyLab(records));
  const keys = { folder: fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-keys-')) };
  const service = await startService({
    database: database.service,
    keys,
    host: '127.0.0.1',
    port: 0,
    limits: NO_LIMITS,
    ...rest,
  });
  const callerWith = (headers: Record<string, string>) => aCaller(service.url, headers);
  return {
    ...service,
    database,
    keys,
    records,
    lab,
    anonymous: callerWith({}),
    signIn: (person, duties = [], inLab = {}) =>
      signInAt({ url: service.url, database, keys, lab: inLab.lab ?? lab, callerWith }, person, duties, inLab.key),
    withToken: (token) => callerWith({ authorization: `Bearer ${token}` }),
    async close() {
      await service.close();
      await database.close();
      fs.rmSync(keys.folder, { recursive: true });
    },
  };
}

async function founderOf(records: Records): Promise<Actor | undefined> {
  const [lab] = await records.labs();
  if (!lab) return undefined;
  const [founder] = await records.read(lab.id).find(tables.Person, {});
  return founder && { labId: lab.id, personId: founder.id };
}

function anEmptyLab(records: Records): Promise<Actor> {
  return foundLab(
    records,
    {
      lab: 'saltmarsh',
      name: 'Saltmarsh Wheelworks test lab',
      address: 'Ropewalk 3, Saltmarsh',
      zone: 'Etc/UTC',
    },
    { kind: 'program', content: { person: 'set-up', name: 'Set-up', role: 'sets up tests', duties: [] } },
  );
}

export interface House {
  url: string;
  database: Pick<TestDatabase, 'dataSource' | 'records'>;
  keys: { folder: string };
  lab: Actor;
  callerWith: (headers: Record<string, string>) => Caller;
}

/** Somebody who keeps their cookie as a browser does: it is another one after passphrase or second factor was given. */
export async function signInAt(
  { url, database, keys, lab, callerWith }: House,
  person: string,
  duties: Duty[],
  labKey?: string,
): Promise<SignedInCaller> {
  const passphrase = `${person} breaks wheels on purpose`;
  const personId = await personCalled(database.records, lab, person, duties, passphrase);
  let cookie = '';
  const kept = (answer: Answer): Answer => {
    cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? cookie;
    return answer;
  };
  const caller: Caller = {
    ask: async (...asked) => kept(await callerWith({ cookie }).ask(...asked)),
    fetch: (...asked) => callerWith({ cookie }).fetch(...asked),
  };
  const answer = kept(
    await callerWith({}).ask('POST', '/api/sign-in', {
      body: { person, passphrase, ...(labKey === undefined ? {} : { lab: labKey }) },
    }),
  );
  if (answer.status !== 200) throw new Error(`${person} could not sign in: ${JSON.stringify(answer.body)}`);
  const secondFactor = async () => {
    await letCodeBeTaken(database, keys, lab.labId, personId);
    const { status, body } = await caller.ask('POST', '/api/me/second-factor', { body: { code: testCode(personId) } });
    if (status !== 204) throw new Error(`${person} could not give a code: ${JSON.stringify(body)}`);
  };
  codes.set(codeKey(url, person), async () => {
    await letCodeBeTaken(database, keys, lab.labId, personId);
    return testCode(personId);
  });
  const needed = answer.body.secondFactorNeeded !== 'nothing' || answer.body.secondFactor === 'owed';
  if (needed) await secondFactor();
  const again = async () => {
    const { status } = await caller.ask('POST', '/api/me/again', { body: { passphrase } });
    if (status !== 204) throw new Error(`${person} could not give the passphrase again: ${status}`);
    if (needed) await secondFactor();
  };
  return {
    ...caller,
    person,
    personId,
    passphrase,
    again,
    get cookie() {
      return cookie;
    },
  };
}

/** How the code of somebody who was signed in is found, by the service's port and their name. */
const codes = new Map<string, () => Promise<string>>();

function codeKey(url: string, person: string): string {
  return `${new URL(url).port} ${person}`;
}

/** A code that somebody can give now at the service of this address. They were signed in by \`signIn\` before. */
export async function codeFor(url: string, person: string): Promise<string> {
  const code = codes.get(codeKey(url, person));
  if (!code) throw new Error(`${person} was never signed in, so nobody knows their codes.`);
  return code();
}

/** The secret of a test person's code generator, the same in every process that signs them in. */
function testSecret(personId: string): Uint8Array {
  return createHash('sha1').update(`code generator of ${personId}`).digest();
}

/** What the code generator of a test person shows now. */
export function testCode(personId: string): string {
  return codeOf(testSecret(personId), stepAt(Date.now()));
}

/** Sees to it that a test person has a code generator, and that its next code was not taken: tests do not wait for it. */
export async function letCodeBeTaken(
  database: Pick<TestDatabase, 'dataSource'>,
  keys: { folder: string },
  labId: string,
  personId: string,
): Promise<void> {
  const sealed = new SealedSecrets(keys.folder).seal(testSecret(personId), personId);
  await database.dataSource.query(
    `insert into code_generator (lab_id, id, sealed, in_use) values ($1, $2, $3, true)
     on conflict (lab_id, id) do update set sealed = excluded.sealed, in_use = true, last_step = 0`,
    [labId, personId, sealed],
  );
}

async function personCalled(
  records: Records,
  lab: Actor,
  key: string,
  duties: Duty[],
  passphrase: string,
): Promise<string> {
  const reader = records.read(lab.labId);
  const known = await reader.maybe(tables.Person, { key });
  if (known && (await reader.find(tables.CredentialChange, { whoseId: known.id })).length > 0) return known.id;
  const hash = await hashPassphrase(passphrase);
  return records.change(lab, 'person added', async (rows) => {
    const person = known ?? (await rows.add(tables.Person, { key, kind: 'person' }));
    const content = { person: key, name: `${key} of the tests`, role: 'tester', duties };
    if (!known) await rows.addVersion(tables.PersonVersion, person.id, { content });
    await givePassphrase(rows, person, hash, { cause: 'first start', temporary: false });
    return person.id;
  });
}

/**
 * Somebody who calls the service of this address, always with these headers. Whatever is answered, to whichever test,
 * must carry the headers that every answer carries.
 */
export function aCaller(url: string, always: Record<string, string>): Caller {
  const send = async (path: string, init: RequestInit = {}) => {
    const headers = new Headers(init.headers);
    for (const [name, value] of Object.entries(always)) headers.set(name, value);
    const response = await fetch(new URL(path, url), { ...init, headers });
    const wrong = wrongHeaders(response.headers, { path });
    if (wrong.length > 0)
      throw new Error(`${init.method ?? 'GET'} ${path} was answered ${response.status} with ${wrong.join('; ')}`);
    return response;
  };
  return {
    fetch: send,
    async ask(method, path, { body, headers = {} } = {}) {
      const asIs =
        body === undefined || typeof body === 'string' || body instanceof Uint8Array || body instanceof FormData;
      const response = await send(path, {
        method,
        redirect: 'manual',
        headers: {
          ...(body === undefined || body instanceof FormData ? {} : { 'content-type': 'application/json' }),
          ...headers,
        },
        ...(body === undefined
          ? {}
          : { body: asIs ? (body as string | Uint8Array<ArrayBuffer> | FormData) : JSON.stringify(body) }),
      });
      return { status: response.status, headers: response.headers, body: await bodyOf(response) };
    },
  };
}

async function bodyOf(response: Response): Promise<unknown> {
  const type = response.headers.get('content-type') ?? '';
  if (response.status === 204) return undefined;
  if (/\bjson\b/.test(type)) return response.json();
  return type.startsWith('text/') ? response.text() : new Uint8Array(await response.arrayBuffer());
}

import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Duty } from '@breakbook/lab';
import { type Actor, foundLab, type Records, tables } from '@breakbook/records';
import { type RunningService, type ServiceOptions, startService } from '@breakbook/service';
import { givePassphrase } from '../apps/service/src/sign-in/credentials.ts';
import { hashPassphrase } from '../apps/service/src/sign-in/passphrase-hash.ts';
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
  cookie: string;
  /** Gives the passphrase again, for routes that need it fresh. */
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
  /** Signs somebody in over HTTP; adds them with these duties where nobody is called so yet. */
  signIn(person: string, duties?: Duty[]): Promise<SignedInCaller>;
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
    signIn: (person, duties = []) => signIn(records, lab, callerWith, person, duties),
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

/** Passphrases of this test run, by database and person: hashing one takes a twentieth of a second. */
async function signIn(
  records: Records,
  lab: Actor,
  callerWith: (headers: Record<string, string>) => Caller,
  person: string,
  duties: Duty[],
): Promise<SignedInCaller> {
  const passphrase = `${person} breaks wheels on purpose`;
  const personId = await personCalled(records, lab, person, duties, passphrase);
  const answer = await callerWith({}).ask('POST', '/api/sign-in', { body: { person, passphrase } });
  if (answer.status !== 200) throw new Error(`${person} could not sign in: ${JSON.stringify(answer.body)}`);
  const cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? '';
  const caller = callerWith({ cookie });
  const again = async () => {
    const { status } = await caller.ask('POST', '/api/me/again', { body: { passphrase } });
    if (status !== 204) throw new Error(`${person} could not give the passphrase again: ${status}`);
  };
  return { ...caller, person, personId, passphrase, cookie, again };
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

function aCaller(url: string, always: Record<string, string>): Caller {
  const send = (path: string, init: RequestInit = {}) => {
    const headers = new Headers(init.headers);
    for (const [name, value] of Object.entries(always)) headers.set(name, value);
    return fetch(new URL(path, url), { ...init, headers });
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

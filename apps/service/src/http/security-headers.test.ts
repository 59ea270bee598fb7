import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Duty } from '@breakbook/lab';
import { type RunningService, startService } from '@breakbook/service';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wrongHeaders } from '../../../../tests/answer-headers.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

const BUILT = fileURLToPath(new URL('../../../console/dist', import.meta.url));
/** Pages of the console's own router, one that is none, and what no route and no file answers. */
const PAGES = [
  '/',
  '/lots/X-1/disposition',
  '/no/such/page',
  '/api/no-such-thing',
  '/assets/none.js',
  '/problems/none',
];
/** Of the interface, but no JSON. */
const ODD: [string, string][] = [
  ['GET', '/api/%zz'],
  ['GET', `/api/${'long'.repeat(3000)}`],
  ['OPTIONS', '/api/me'],
  ['DELETE', '/api/me'],
  ['GET', '/api/people?unknown=1'],
  ['GET', '/api/people?limit=1&limit=2'],
];

/** On this machine alone, and behind an address of its own, where answers also ask for TLS from now on. */
describe.each([
  ['on this machine', undefined],
  ['behind an address of its own', 'https://breakbook.saltmarsh.example'],
])('a service %s', (_where, origin) => {
  const secure = origin !== undefined;
  let service: TestService;
  let asked: RunningService;
  let everybody: SignedInCaller;
  let answered = 0;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    everybody = await service.signIn('everybody', Duty.exclude(['send']).options);
    const { database, keys } = service;
    asked = secure
      ? await startService({
          database: database.service,
          keys,
          host: '127.0.0.1',
          port: 0,
          consoleFolder: BUILT,
          limits: { perMinute: 1_000_000, signInsPerMinute: 1_000_000 },
          origin,
        })
      : service;
  }, 120_000);
  afterAll(async () => {
    if (secure) await asked.close();
    await service.close();
  });

  /** The status of an answer whose headers are all right. */
  async function statusOf(method: string, address: string, headers: Record<string, string> = {}): Promise<number> {
    const body = /^(GET|HEAD|OPTIONS)$/.test(method) ? {} : { body: '{}' };
    const sent = { ...(body.body ? { 'content-type': 'application/json' } : {}), ...headers };
    const response = await fetch(new URL(address, asked.url), { method, redirect: 'manual', headers: sent, ...body });
    await response.body?.cancel();
    expect(
      wrongHeaders(response.headers, { path: address, secure }),
      `${method} ${address}: ${response.status}`,
    ).toEqual([]);
    answered += 1;
    return response.status;
  }

  it('sends them with the answer of every route: to nobody, to a rig that is none, and to whoever may do everything', async () => {
    const cookie = secure ? everybody.cookie.replace(/^[^=]+/, '__Host-breakbook') : everybody.cookie;
    const statuses = new Set<number>();
    for (const { method, url } of asked.routes) {
      const address = url.replaceAll(/:[a-zA-Z]+/g, '1').replace('*', 'none');
      const ends = /^POST \/api\/(sign-out|me\/sessions)/.test(`${method} ${url}`);
      for (const headers of [{}, { authorization: 'Bearer none' }, ...(ends ? [] : [{ cookie }])])
        statuses.add(await statusOf(method, address, headers));
    }
    expect(answered).toBeGreaterThan(asked.routes.length * 2);
    // Taken, refused for each reason, and asked for what is not there.
    for (const status of [200, 401, 404, 422]) expect([...statuses], `${status}`).toContain(status);
  }, 120_000);

  it('sends them with what is no route, and with what is hardly a request', async () => {
    for (const page of PAGES)
      for (const accept of ['text/html', 'application/json']) await statusOf('GET', page, { accept });
    for (const [method, address] of ODD) await statusOf(method, address);
  });

  it('sends them with every file of the console', async () => {
    const files = fs
      .readdirSync(BUILT, { recursive: true, withFileTypes: true })
      // What the build notes for itself begins with a dot, and is not handed out.
      .flatMap((one) =>
        one.isFile() && !one.name.startsWith('.') ? [path.relative(BUILT, path.join(one.parentPath, one.name))] : [],
      );
    expect(files.length).toBeGreaterThan(5);
    for (const file of files) expect(await statusOf('GET', `/${file}`), file).toBe(200);
    const [first = ''] = files;
    for (const range of ['bytes=0-3', 'bytes=99999999-', 'bytes=x'])
      expect(await statusOf('GET', `/${first}`, { range })).toBe(200);
    expect(await statusOf('GET', `/${first}`, { 'if-match': '"another"' })).toBe(412);
    expect(await statusOf('POST', `/${first}`)).toBe(405);
  });
});

import 'reflect-metadata';
import net from 'node:net';
import { Duty, type Refusal } from '@breakbook/lab';
import { newId, tables } from '@breakbook/records';
import { fastify } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ALWAYS } from '../../../../tests/answer-headers.ts';
import { queryAs } from '../../../../tests/database.ts';
import { type Caller, startTestService, type TestService } from '../../../../tests/service.ts';
import { guardRoutes } from './admission.js';
import { digestOfSecret } from './drawn-secret.js';
import { OPEN } from './route-admissions.js';
import {
  ROUTE_DUTIES,
  ROUTES_ASKING_AGAIN,
  ROUTES_BEFORE_SECOND_FACTOR,
  ROUTES_WITH_GIVEN_PASSPHRASE,
} from './route-duties.fixture.js';

/** Whoever calls with one duty, by it; beside them one without any, and nobody. */
const callers = new Map<Duty | 'none', Caller>();
let service: TestService;
beforeAll(async () => {
  service = await startTestService();
  for (const duty of Duty.exclude(['send']).options) callers.set(duty, await service.signIn(`with-${duty}`, [duty]));
  callers.set('none', await service.signIn('with-none', []));
  callers.set('send', service.withToken(await aRigToken()));
  // As a screen left open: signed in, but the passphrase was given too long ago for what asks it again.
  await queryAs(service.database.owner, `update session set confirmed_at = confirmed_at - interval '5 minutes'`);
});
afterAll(() => service.close());

async function aRigToken(): Promise<string> {
  const token = 'bbrig_of-the-matrix';
  await service.records.change(service.lab, 'rig built', async (rows) => {
    const rig = await rows.add(tables.Rig, { key: 'burst-1' });
    const program = await rows.add(tables.Person, { id: newId(), key: 'rig.1', kind: 'program' });
    await rows.add(tables.RigToken, {
      rigId: rig.id,
      programId: program.id,
      note: 'matrix',
      sha256: digestOfSecret(token),
      expiresAt: new Date(rows.at.getTime() + 3_600_000),
    });
  });
  return token;
}

interface Tried {
  status: number;
  code?: string;
  headers: Headers;
}

/** Calls a route with names that lead nowhere and an empty body, and reads no further than whether it was let in. */
async function tried(caller: Caller, route: string): Promise<Tried> {
  const [method = '', url = ''] = route.split(' ');
  const path = url.replaceAll(/:[a-zA-Z]+/g, 'none').replace('*', 'none');
  const body = method === 'GET' ? {} : { body: '{}', headers: { 'content-type': 'application/json' } };
  const response = await caller.fetch(path, { method, redirect: 'manual', ...body });
  const { status, headers } = response;
  const isProblem = headers.get('content-type')?.startsWith('application/problem+json');
  if (isProblem) return { status, headers, code: ((await response.json()) as { code: string }).code };
  await response.body?.cancel(); // A stream of events would never end.
  return { status, headers };
}

function isLetIn({ code }: Tried): boolean {
  return code !== 'auth.required' && code !== 'auth.forbidden';
}

/** Read in the tests, since routes are registered when the service starts. */
const served = () =>
  service.routes.filter(({ method }) => method !== 'HEAD').map(({ method, url }) => `${method} ${url}`);

describe('the routes of the running service', () => {
  it('are those of the table, each with the duty it names, and each answers HEAD as it answers GET', () => {
    expect(served().sort()).toEqual(Object.keys(ROUTE_DUTIES).sort());
    for (const { method, url, admission } of service.routes) {
      const route = `${method === 'HEAD' ? 'GET' : method} ${url}`;
      const asks = {
        duty: ROUTE_DUTIES[route],
        again: ROUTES_ASKING_AGAIN.includes(route),
        givenPassphrase: ROUTES_WITH_GIVEN_PASSPHRASE.includes(route),
        beforeSecondFactor: ROUTES_BEFORE_SECOND_FACTOR[route],
      };
      expect(admission, route).toEqual(asks);
    }
    const named = [
      ...ROUTES_ASKING_AGAIN,
      ...ROUTES_WITH_GIVEN_PASSPHRASE,
      ...Object.keys(ROUTES_BEFORE_SECOND_FACTOR),
    ];
    expect(named.filter((one) => !ROUTE_DUTIES[one])).toEqual([]);
  });

  it.each(Object.entries(ROUTE_DUTIES).filter(([, duty]) => duty !== 'anybody'))(
    '%s lets in %j and nobody else',
    async (route, duty) => {
      const anonymous = await tried(service.anonymous, route);
      expect(anonymous, 'anonymous').toMatchObject({ status: 401, code: 'auth.required' });
      await Promise.all(
        [...callers].map(async ([held, caller]) => {
          const answer = await tried(caller, route);
          const may = duty === 'signed in' ? held !== 'send' : held !== 'none' && duty.includes(held);
          if (may) expect(isLetIn(answer), `${held}: ${answer.status} ${answer.code}`).toBe(true);
          else expect(answer, held).toMatchObject({ status: 403, code: 'auth.forbidden' });
          const asksAgain = may && ROUTES_ASKING_AGAIN.includes(route);
          expect(answer.code === 'auth.again', `${held}: ${answer.code}`).toBe(asksAgain);
        }),
      );
    },
  );

  it.each(Object.entries(ROUTE_DUTIES).filter(([, duty]) => duty === 'anybody'))(
    '%s lets in anybody',
    async (route) => {
      expect(isLetIn(await tried(service.anonymous, route))).toBe(true);
    },
  );

  it('a route that says nothing of its duty is closed, and its body is never read', async () => {
    const bare = fastify();
    const nobody = { sessions: {}, tokens: {}, address: {} } as Parameters<typeof guardRoutes>[2];
    guardRoutes(
      bare,
      new Map([
        ['GET /open', OPEN],
        ['GET /open/too', OPEN],
      ]),
      nobody,
    );
    bare.setErrorHandler((error, _request, reply) => reply.status(403).send((error as Refusal).code));
    bare.get('/open', async () => 'answered');
    bare.post('/forgotten', async () => 'answered');
    bare.route({ method: ['GET', 'POST'], url: '/open/too', handler: async () => 'answered' });
    expect((await bare.inject('/open')).body).toBe('answered');
    expect((await bare.inject({ method: 'POST', url: '/forgotten', payload: '{"broken' })).body).toBe('auth.forbidden');
    for (const method of ['GET', 'POST'] as const)
      expect((await bare.inject({ method, url: '/open/too' })).body, method).toBe('auth.forbidden');
    await bare.close();
  });

  it('a body is not read for nobody', async () => {
    const answer = await service.anonymous.ask('POST', '/api/people', { body: '{"broken' });
    expect(answer).toMatchObject({ status: 401, body: { code: 'auth.required' } });
  });
});

describe('the headers of every answer', () => {
  it.each([
    'GET / HTTP/9.9\r\n\r\n',
    'NOT A REQUEST\r\n\r\n',
    `GET / HTTP/1.1\r\nHost: x\r\nX: ${'y'.repeat(40_000)}\r\n\r\n`,
  ])('are on the answer to what is no request (%#)', async (sent) => {
    const answer = await raw(sent);
    expect(answer).toMatch(/^HTTP\/1\.1 4\d\d /);
    const head = answer.split('\r\n\r\n')[0]?.toLowerCase() ?? '';
    for (const name of [...Object.keys(ALWAYS), 'cache-control']) expect(head, name).toContain(`\r\n${name}: `);
  });

  function raw(sent: string): Promise<string> {
    const { hostname, port } = new URL(service.url);
    return new Promise((resolve, reject) => {
      let answer = '';
      const socket = net.connect(Number(port), hostname, () => socket.write(sent));
      socket.setEncoding('utf8').on('data', (part) => {
        answer += part;
      });
      socket.on('end', () => resolve(answer)).on('error', reject);
    });
  }
});

import 'reflect-metadata';
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../../tests/database.ts';
import { type SignedInCaller, startTestService, type TestService } from '../../../../../tests/service.ts';

const CLIENT = { client_id: 'breakbook', client_secret: 'a secret of this test alone, long enough' };

/** A real provider on this machine, of another make than what asks it: the npm package oidc-provider. */
async function aProvider(returnTo: string) {
  const { default: OidcProvider } = await import('oidc-provider');
  const server = http.createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const issuer = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const provider = new OidcProvider(issuer, {
    clients: [{ ...CLIENT, redirect_uris: [returnTo], response_types: ['code'], grant_types: ['authorization_code'] }],
    pkce: { required: () => true },
    findAccount: (_: unknown, sub: string) => ({ accountId: sub, claims: () => ({ sub }) }),
    cookies: { keys: ['only for this test'] },
  });
  const asked: string[] = [];
  /** Changes what the provider answers with a token, on its way. */
  const onTheWay: { alter?: (idToken: string) => string } = {};
  server.on('request', (request, answer) => {
    asked.push(request.url ?? '');
    const end = answer.end.bind(answer) as (body?: string) => typeof answer;
    if (request.url === '/token')
      answer.end = ((body?: string | Buffer) => {
        const { alter } = onTheWay;
        if (!alter || body === undefined) return end(body?.toString());
        const told = JSON.parse(body.toString()) as { id_token: string };
        return end(JSON.stringify({ ...told, id_token: alter(told.id_token) }));
      }) as typeof answer.end;
    void provider.callback()(request, answer);
  });
  return { issuer, asked, onTheWay, close: () => new Promise((resolve) => server.close(resolve)) };
}

/** A person's browser at the provider: keeps its cookies, fills in its forms, and stops before coming back. */
async function atProvider(address: string, login: string, returnTo: string): Promise<string> {
  const jar = new Map<string, string>();
  let [next, init]: [string, RequestInit] = [address, {}];
  for (let step = 0; step < 12; step += 1) {
    const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join('; ');
    const answer = await fetch(next, { ...init, redirect: 'manual', headers: { ...init.headers, cookie } });
    for (const set of answer.headers.getSetCookie()) {
      const [name = '', value = ''] = (set.split(';')[0] ?? '').split('=');
      jar.set(name, value);
    }
    const location = answer.headers.get('location');
    if (location) {
      [next, init] = [new URL(location, next).href, {}];
      if (next.startsWith(returnTo)) return new URL(next).search.slice(1);
      continue;
    }
    const page = await answer.text();
    const prompt = /name="prompt" value="(\w+)"/.exec(page)?.[1] ?? '';
    const form = /action="([^"]+)"/.exec(page)?.[1];
    if (!form) throw new Error(`The provider shows no form: ${page.slice(0, 500)}`);
    const body = new URLSearchParams({ prompt, login, password: 'any' });
    [next, init] = [new URL(form, next).href, { method: 'POST', body }];
  }
  throw new Error('The provider sends nobody back.');
}

let service: TestService;
let provider: Awaited<ReturnType<typeof aProvider>>;
let administrator: SignedInCaller;
let returnTo: string;
const PORT_OF_SERVICE = 40_000 + Math.floor((process.pid % 2000) * 5);

beforeAll(async () => {
  returnTo = `http://127.0.0.1:${PORT_OF_SERVICE}/signing-in`;
  provider = await aProvider(returnTo);
  service = await startTestService({
    port: PORT_OF_SERVICE,
    provider: {
      issuer: provider.issuer,
      clientId: CLIENT.client_id,
      clientSecret: CLIENT.client_secret,
      name: 'the works',
    },
  });
  administrator = await service.signIn('yuko', ['administer']);
  await service.signIn('imke', ['record']);
});
afterAll(async () => {
  await service.close();
  await provider.close();
});

async function begin(body: object = {}) {
  const answer = await service.anonymous.ask('POST', '/api/sign-in/outside', { body });
  return {
    answer,
    address: answer.body.address as string,
    cookie: answer.headers.get('set-cookie')?.split(';')[0] ?? '',
  };
}

const finish = (query: string, cookie: string) =>
  service.anonymous.ask('POST', '/api/sign-in/outside/return', { body: { query }, headers: { cookie } });

async function signedInAs(login: string) {
  const { address, cookie } = await begin();
  return finish(await atProvider(address, login, returnTo), cookie);
}

/** A text with one letter of it another. */
const turned = (text: string, at: number) => `${text.slice(0, at)}${text[at] === 'A' ? 'B' : 'A'}${text.slice(at + 1)}`;

const link = (person: string, subject: string, issuer = provider.issuer) =>
  administrator.ask('POST', `/api/people/${person}/outside-identity`, {
    body: { issuer, subject, reason: 'shown at the door with a badge' },
  });

describe('signing in by the word of a provider', () => {
  it('asks for a code with PKCE, state and nonce, and for nothing but who somebody is', async () => {
    const { answer, address } = await begin();
    expect((await service.anonymous.ask('GET', '/api/sign-in/ways')).body).toEqual({
      severalLabs: false,
      outside: { name: 'the works' },
    });
    const asked = new URL(address).searchParams;
    expect(Object.fromEntries(asked)).toMatchObject({
      response_type: 'code',
      client_id: CLIENT.client_id,
      redirect_uri: returnTo,
      scope: 'openid',
      code_challenge_method: 'S256',
    });
    for (const name of ['state', 'nonce', 'code_challenge']) expect(asked.get(name)?.length).toBeGreaterThanOrEqual(43);
    expect(answer.headers.get('set-cookie')).toMatch(/^breakbook-away=[\w-]{43}; .*HttpOnly; SameSite=Strict$/);
  });

  it('knows nobody whom no administrator has linked, and tells them what to say to one', async () => {
    const answer = await signedInAs('i.dorn');
    expect(answer).toMatchObject({ status: 401, body: { code: 'auth.failed', found: 'i.dorn' } });
    expect(answer.headers.get('set-cookie') ?? '').not.toMatch(/breakbook=\w/);
  });

  it('lets in whom an administrator has linked by issuer and subject, with the duties of the lab', async () => {
    expect((await link('imke', 'i.dorn')).status).toBe(204);
    expect((await administrator.ask('GET', '/api/people/imke/outside-identity')).body).toEqual({
      identity: { issuer: provider.issuer, subject: 'i.dorn' },
    });
    const answer = await signedInAs('i.dorn');
    expect(answer.body).toMatchObject({ person: 'imke', duties: ['record'] });
    const cookie = answer.headers.getSetCookie().find((one) => one.startsWith('breakbook=')) ?? '';
    const headers = { cookie: cookie.split(';')[0] ?? '' };
    expect((await service.anonymous.ask('GET', '/api/lots', { headers })).status).toBe(200);
    // The provider's word is no passphrase: what is done in somebody's name asks for their own.
    expect(await service.anonymous.ask('POST', '/api/me/code-generator', { headers })).toMatchObject({
      status: 401,
      body: { code: 'auth.again' },
    });
  });

  it('links one name to one person, also where two are linked at once, and ends sessions with the link', async () => {
    await service.signIn('jorun', ['draw']);
    await service.signIn('marit', ['draw']);
    const both = await Promise.all([link('jorun', 'the.same'), link('marit', 'the.same')]);
    expect(both.map(({ status }) => status).sort()).toEqual([204, 409]);
    expect((await link('imke', 'another')).status, 'linked already').toBe(409);
    const imke = await service.signIn('imke');
    const ended = await administrator.ask('POST', '/api/people/imke/outside-identity/ending', {
      body: { reason: 'has left the works' },
    });
    expect(ended.status).toBe(204);
    expect((await imke.ask('GET', '/api/me')).status).toBe(401);
    expect((await signedInAs('i.dorn')).status).toBe(401);
    expect((await link('imke', 'i.dorn')).status).toBe(204);
  });

  it('takes a return once, from the browser that began, with the state and code that belong together', async () => {
    const { address, cookie } = await begin();
    const query = await atProvider(address, 'i.dorn', returnTo);
    const other = await begin();
    expect((await finish(query, '')).status, 'no cookie').toBe(401);
    expect((await finish(query, other.cookie)).status, 'another browser').toBe(401);
    expect((await finish(query, cookie)).status).toBe(200);
    expect((await finish(query, cookie)).status, 'a second time').toBe(401);

    for (const alter of ['state', 'code', 'iss']) {
      const begun = await begin();
      const came = new URLSearchParams(await atProvider(begun.address, 'i.dorn', returnTo));
      const told = came.get(alter) ?? '';
      came.set(alter, turned(told, told.length - 1));
      expect((await finish(came.toString(), begun.cookie)).body.code, alter).toBe('auth.failed');
    }
    for (const column of ['nonce', 'verifier']) {
      const begun = await begin();
      const came = await atProvider(begun.address, 'i.dorn', returnTo);
      await queryAs(service.database.owner, `update outside_sign_in set ${column} = ${column} || 'x'`);
      expect((await finish(came, begun.cookie)).body.code, column).toBe('auth.failed');
    }
    const late = await begin();
    const came = await atProvider(late.address, 'i.dorn', returnTo);
    await queryAs(service.database.owner, `update outside_sign_in set began_at = began_at - interval '10 minutes'`);
    expect((await finish(came, late.cookie)).body.code, 'too late').toBe('auth.failed');
    const refused = await begin();
    const state = new URL(refused.address).searchParams.get('state');
    const denied = `error=access_denied&state=${state}&iss=${encodeURIComponent(provider.issuer)}`;
    expect((await finish(denied, refused.cookie)).body.code).toBe('auth.failed');
  });

  it('believes no ID token whose signature is not by a key that the provider publishes, or whose text was changed', async () => {
    expect((await signedInAs('i.dorn')).status).toBe(200);
    expect(provider.asked).toContain('/jwks');
    const asked = provider.asked.length;
    for (const part of [1, 2]) {
      provider.onTheWay.alter = (idToken) =>
        idToken
          .split('.')
          .map((text, n) => (n === part ? turned(text, Math.floor(text.length / 2)) : text))
          .join('.');
      expect((await signedInAs('i.dorn')).body.code, `part ${part}`).toBe('auth.failed');
    }
    // Signed by nobody, as "alg": "none" would have it (RFC 8725, 3.2).
    provider.onTheWay.alter = (idToken) => {
      const [, claims = ''] = idToken.split('.');
      return `${Buffer.from('{"alg":"none"}').toString('base64url')}.${claims}.`;
    };
    expect((await signedInAs('i.dorn')).body.code).toBe('auth.failed');
    delete provider.onTheWay.alter;
    expect(provider.asked.length).toBeGreaterThan(asked);
    expect((await signedInAs('i.dorn')).status).toBe(200);
  });

  it('says so when the provider is away', async () => {
    const away = await startTestService({
      provider: { issuer: 'http://127.0.0.1:9', clientId: 'x', clientSecret: 'y', name: 'the works' },
    });
    try {
      const answer = await away.anonymous.ask('POST', '/api/sign-in/outside', { body: {} });
      expect(answer).toMatchObject({ status: 503, body: { code: 'service.unavailable' } });
    } finally {
      await away.close();
    }
  });

  it('is not there where no provider is named', async () => {
    const without = await startTestService();
    try {
      expect((await without.anonymous.ask('GET', '/api/sign-in/ways')).body.outside).toBeNull();
      for (const [path, body] of [
        ['outside', {}],
        ['outside/return', { query: 'code=x' }],
      ] as const)
        expect(await without.anonymous.ask('POST', `/api/sign-in/${path}`, { body })).toMatchObject({
          status: 404,
          body: { code: 'request.not-found' },
        });
    } finally {
      await without.close();
    }
  });
});

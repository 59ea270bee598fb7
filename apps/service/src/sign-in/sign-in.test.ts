import 'reflect-metadata';
import { Readable } from 'node:stream';
import { tables } from '@breakbook/records';
import fastifyCookie from '@fastify/cookie';
import { fastify } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.ts';
import { letCodeBeTaken, startTestService, type TestService, testCode } from '../../../../tests/service.ts';
import { RigTokens } from '../rigs/tokens/rig-tokens.js';
import { startService } from '../start.js';
import { guardRoutes } from './admission.js';
import { giveFirstPassphrases, resetPassphrase } from './first-passphrases.js';
import type { RouteAdmission } from './route-admissions.js';
import { Sessions } from './sessions.js';

// Figures: the OWASP Session Management Cheat Sheet, from memory.
let service: TestService;
beforeAll(async () => {
  service = await startTestService();
});
afterAll(() => service.close());

const owner = <T extends object>(sql: string) => queryAs<T & Record<string, unknown>>(service.database.owner, sql);

function signIn(person: string, passphrase: string, cookie?: string) {
  return service.anonymous.ask('POST', '/api/sign-in', {
    body: { person, passphrase },
    ...(cookie === undefined ? {} : { headers: { cookie } }),
  });
}

function cookieOf(answer: { headers: Headers }): string {
  return answer.headers.get('set-cookie')?.split(';')[0] ?? '';
}

async function isLetIn(cookie: string): Promise<boolean> {
  const { status } = await service.anonymous.ask('GET', '/api/me', { headers: { cookie } });
  return status === 200;
}

describe('a session', () => {
  it('answers who signed in, and is a cookie that no script reads and no other site sends', async () => {
    const imke = await service.signIn('imke', ['record', 'draw']);
    const answer = await signIn('imke', imke.passphrase);
    expect(answer.body).toEqual({
      lab: { lab: 'saltmarsh', name: 'Saltmarsh Wheelworks test lab' },
      person: 'imke',
      name: 'imke of the tests',
      role: 'tester',
      duties: ['record', 'draw'],
      givenPassphrase: false,
      secondFactor: 'none',
      secondFactorNeeded: 'nothing',
    });
    const [pair = '', ...attributes] = (answer.headers.get('set-cookie') ?? '').split('; ');
    expect(attributes.sort()).toEqual(['HttpOnly', 'Path=/', 'SameSite=Strict']);
    const [name, secret = ''] = pair.split('=');
    expect(name).toBe('breakbook');
    expect(Buffer.from(secret, 'base64url')).toHaveLength(32);
    expect(answer.headers.get('cache-control')).toBe('no-store');
  });

  it('is kept as a digest only, and neither secret nor passphrase nor hash stands in the ledger', async () => {
    const imke = await service.signIn('imke');
    const [, secret = 'none'] = imke.cookie.split('=');
    const kept = JSON.stringify([
      await owner('select * from session'),
      await owner('select * from credential'),
      await owner('select * from ledger_entry'),
    ]);
    expect(kept).not.toContain(secret);
    expect(kept).not.toContain(imke.passphrase);
    const hashes = await owner<{ hash: string }>('select hash from credential');
    const ledger = JSON.stringify(await owner('select text from ledger_entry'));
    expect(hashes.length).toBeGreaterThan(0);
    for (const { hash } of hashes) {
      expect(hash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
      expect(ledger).not.toContain(hash);
    }
    expect(ledger).toContain('credential_change');
  });

  it('is new at every sign-in: one that was laid into the browser is never taken, and the one before ends', async () => {
    const { passphrase } = await service.signIn('fixed');
    const laid = 'breakbook=known-to-somebody-else';
    const first = cookieOf(await signIn('fixed', passphrase, laid));
    expect(first).not.toBe(laid);
    expect(await isLetIn(laid)).toBe(false);
    const second = cookieOf(await signIn('fixed', passphrase, first));
    expect(second).not.toBe(first);
    expect([await isLetIn(first), await isLetIn(second)]).toEqual([false, true]);
  });

  it('goes on under a new secret once passphrase or second factor was given again, and the one before is dead', async () => {
    const reviewer = await service.signIn('rotated', ['review']);
    const secrets = [reviewer.cookie];
    await reviewer.again();
    secrets.push(reviewer.cookie);
    await letCodeBeTaken(service.database, service.keys, service.lab.labId, reviewer.personId);
    await reviewer.ask('POST', '/api/me/second-factor', { body: { code: testCode(reviewer.personId) } });
    secrets.push(reviewer.cookie);
    expect(new Set(secrets).size).toBe(3);
    expect([await isLetIn(secrets[0] ?? ''), await isLetIn(secrets[1] ?? ''), await isLetIn(secrets[2] ?? '')]).toEqual(
      [false, false, true],
    );
    expect(await owner(`select 1 from session where person_id = '${reviewer.personId}'`)).toHaveLength(1);
  });

  it('is seen by its owner among their others, and ended there within a second', async () => {
    const here = await service.signIn('everywhere');
    const there = await service.signIn('everywhere');
    const third = await service.signIn('everywhere');
    const stranger = await service.signIn('stranger-to-it');
    const { items } = (await here.ask('GET', '/api/me/sessions')).body;
    expect(items).toHaveLength(3);
    expect(items.map((one: { this: boolean }) => one.this)).toEqual([false, false, true]);
    const [{ id: latest }] = items;
    const foreign = await stranger.ask('POST', `/api/me/sessions/${latest}/ending`);
    expect(foreign).toMatchObject({ status: 404, body: { code: 'request.not-found' } });
    expect(await isLetIn(third.cookie)).toBe(true);
    const begun = performance.now();
    expect((await here.ask('POST', `/api/me/sessions/${latest}/ending`)).status).toBe(204);
    expect(await isLetIn(third.cookie)).toBe(false);
    expect(performance.now() - begun).toBeLessThan(1000);
    expect((await here.ask('POST', '/api/me/sessions/ending')).status).toBe(204);
    expect([await isLetIn(there.cookie), await isLetIn(here.cookie), await isLetIn(stranger.cookie)]).toEqual([
      false,
      true,
      true,
    ]);
  });

  it('ends at signing out, and the browser is told to forget it', async () => {
    const { cookie } = await service.signIn('leaver');
    const out = await service.anonymous.ask('POST', '/api/sign-out', { headers: { cookie } });
    expect(out.status).toBe(204);
    expect(out.headers.get('set-cookie')).toMatch(/^breakbook=;.*Expires=Thu, 01 Jan 1970/);
    expect(await isLetIn(cookie)).toBe(false);
    expect((await service.anonymous.ask('POST', '/api/sign-out')).status).toBe(204);
  });

  it('ends after half an hour without use and after twelve hours with it', async () => {
    const idle = await service.signIn('idle');
    const age = (column: string, by: string) =>
      owner(`update session set ${column} = ${column} - interval '${by}'
             where person_id = '${idle.personId}'`);
    await age('seen_at', '29 minutes 50 seconds');
    expect(await isLetIn(idle.cookie)).toBe(true);
    await age('seen_at', '29 minutes 50 seconds');
    expect(await isLetIn(idle.cookie), 'its use was noted').toBe(true);
    await age('seen_at', '30 minutes');
    expect(await isLetIn(idle.cookie)).toBe(false);

    const busy = await service.signIn('idle');
    await age('began_at', '11 hours 59 minutes');
    expect(await isLetIn(busy.cookie)).toBe(true);
    await age('began_at', '1 minute');
    expect(await isLetIn(busy.cookie)).toBe(false);
    expect((await service.anonymous.ask('GET', '/api/me', { headers: { cookie: busy.cookie } })).body).toMatchObject({
      code: 'auth.required',
      detail: 'This session has ended.',
    });
  });

  it('takes a stream of events with it when it ends', async () => {
    const bare = fastify();
    await bare.register(fastifyCookie);
    const { dataSource } = service.database;
    const streams: RouteAdmission = { duty: 'signed in', again: false, givenPassphrase: false };
    const found = { sessions: new Sessions(dataSource), tokens: new RigTokens(dataSource), address: {} };
    guardRoutes(bare, new Map([['GET /events', streams]]), found);
    bare.get('/events', (_request, reply) => {
      const events = new Readable({ read() {} });
      events.push(': the first one\n\n');
      return reply.header('content-type', 'text/event-stream').send(events);
    });
    const url = await bare.listen({ port: 0, host: '127.0.0.1' });
    try {
      const watcher = await service.signIn('watcher');
      const stream = await fetch(`${url}/events`, { headers: { cookie: watcher.cookie } });
      let ended = false;
      const reading = stream.text().catch(() => {
        ended = true;
      });
      await new Promise((resolve) => setTimeout(resolve, 1000));
      expect(ended, 'it goes on as long as the session').toBe(false);
      await watcher.ask('POST', '/api/sign-out');
      await Promise.race([reading, new Promise((resolve) => setTimeout(resolve, 1000))]);
      expect(ended).toBe(true);
    } finally {
      await bare.close();
    }
  });

  it('outlives a restart of the service', async () => {
    const { cookie } = await service.signIn('steady');
    const other = await startService({
      database: service.database.service,
      keys: service.keys,
      host: '127.0.0.1',
      port: 0,
    });
    try {
      expect((await fetch(`${other.url}/api/me`, { headers: { cookie } })).status).toBe(200);
    } finally {
      await other.close();
    }
  });

  it('changes nothing for a page of another site', async () => {
    const framed = await service.signIn('framed');
    const { passphrase } = framed;
    const { host } = new URL(service.url);
    const again = (headers: Record<string, string>) =>
      framed.ask('POST', '/api/me/again', { body: { passphrase }, headers });
    for (const headers of [
      { origin: 'https://elsewhere.example' },
      { origin: 'null' },
      { origin: `http://${host}.elsewhere.example` },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
    ])
      expect(await again(headers), JSON.stringify(headers)).toMatchObject({
        status: 403,
        body: { code: 'auth.forbidden' },
      });
    for (const headers of [{ origin: `http://${host}` }, { 'sec-fetch-site': 'same-origin' }, {}])
      expect((await again(headers)).status, JSON.stringify(headers)).toBe(204);
    const preflight = await service.anonymous.ask('OPTIONS', '/api/me', {
      headers: { origin: 'https://elsewhere.example' },
    });
    expect(preflight.headers.get('access-control-allow-origin')).toBeNull();
  });

  it('travels over TLS alone where the service has an address of its own', async () => {
    const { passphrase } = await service.signIn('outside');
    const secure = await startService({
      database: service.database.service,
      keys: service.keys,
      host: '127.0.0.1',
      port: 0,
      origin: 'https://breakbook.saltmarsh.example',
    });
    try {
      const ask = (origin: string) =>
        fetch(`${secure.url}/api/sign-in`, {
          method: 'POST',
          headers: { 'content-type': 'application/json', origin },
          body: JSON.stringify({ person: 'outside', passphrase }),
        });
      const answer = await ask('https://breakbook.saltmarsh.example');
      expect(answer.headers.get('set-cookie')).toMatch(
        /^__Host-breakbook=[\w-]{43}; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
      );
      expect(answer.headers.get('strict-transport-security')).toBe('max-age=31536000');
      expect((await ask('https://elsewhere.example')).status).toBe(403);
    } finally {
      await secure.close();
    }
  });
});

describe('the first start', () => {
  it('gives everybody a passphrase once, and never again', async () => {
    const first = await startTestService();
    try {
      await first.records.change(first.lab, 'people added', async (rows) => {
        for (const person of ['imke', 'jorun']) {
          const { id } = await rows.add(tables.Person, { key: person, kind: 'person' });
          const content = { person, name: `${person} D.`, role: 'technician', duties: ['record' as const] };
          await rows.addVersion(tables.PersonVersion, id, { content });
        }
      });
      const given = await giveFirstPassphrases(first.records);
      expect(given.map(({ passphrase: _, ...rest }) => rest)).toEqual([
        { person: 'imke', name: 'imke D.', duties: ['record'] },
        { person: 'jorun', name: 'jorun D.', duties: ['record'] },
      ]);
      for (const { person, passphrase } of given) {
        const answer = await first.anonymous.ask('POST', '/api/sign-in', { body: { person, passphrase } });
        expect(answer).toMatchObject({ status: 200, body: { person, givenPassphrase: false } });
      }
      expect(await giveFirstPassphrases(first.records)).toEqual([]);
      const dump = await queryAs(first.database.owner, 'select text from ledger_entry');
      for (const { passphrase } of given) expect(JSON.stringify(dump)).not.toContain(passphrase);
    } finally {
      await first.close();
    }
  });

  it('a passphrase given at the machine opens nothing but the way to an own one', async () => {
    const { personId } = await service.signIn('loser', ['record']);
    const given = await resetPassphrase(service.records, service.lab.labId, 'loser');
    const answer = await signIn('loser', given);
    const headers = { cookie: cookieOf(answer) };
    expect(answer.body.givenPassphrase).toBe(true);
    expect(await service.anonymous.ask('GET', '/api/lots', { headers })).toMatchObject({
      status: 403,
      body: { code: 'auth.forbidden', action: expect.stringContaining('/api/me/passphrase') },
    });
    const chosen = await service.anonymous.ask('POST', '/api/me/passphrase', {
      headers,
      body: { current: given, passphrase: 'a heron stands where the rim broke' },
    });
    const own = { cookie: cookieOf(chosen) };
    expect((await service.anonymous.ask('GET', '/api/lots', { headers: own })).status).toBe(200);
    const causes = await owner<{ cause: string }>(
      `select cause from credential_change where whose_id = '${personId}' order by id`,
    );
    expect(causes.map(({ cause }) => cause)).toEqual([
      'first start',
      'second factors taken away',
      'reset at the machine',
      'own choice',
    ]);
    await expect(resetPassphrase(service.records, service.lab.labId, 'nobody')).rejects.toMatchObject({
      code: 'request.not-found',
    });
    await expect(resetPassphrase(service.records, service.lab.labId, 'set-up')).rejects.toMatchObject({
      code: 'request.not-found',
    });
  });
});

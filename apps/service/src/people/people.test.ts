import 'reflect-metadata';
import { PostgresRawStore, tables, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../tests/database.ts';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { digestOfSecret } from '../sign-in/drawn-secret.js';

let service: TestService;
let administrator: SignedInCaller;
beforeAll(async () => {
  service = await startTestService();
  administrator = await service.signIn('yuko', ['audit', 'administer']);
  await administrator.again();
});
afterAll(() => service.close());

const NEW_PERSON = { person: 'chipo', name: 'Chipo Marandu', role: 'Metrologist', duties: ['calibrate'] };

function duties(person: string, list: string[], version: number, headers: Record<string, string> = {}) {
  return administrator.ask('PUT', `/api/people/${person}/duties`, {
    body: { duties: list, reason: 'the work is shared out anew' },
    headers: { 'if-match': `"${version}"`, ...headers },
  });
}

describe('people', () => {
  it('are added with a passphrase that is shown once, and choose their own before anything else', async () => {
    const added = await administrator.ask('POST', '/api/people', { body: NEW_PERSON });
    expect(added).toMatchObject({
      status: 201,
      body: { key: 'chipo', version: 1, by: 'yuko', content: NEW_PERSON, signsIn: true },
    });
    expect(added.headers.get('cache-control')).toBe('no-store');
    const { passphrase } = added.body;
    const answer = await service.anonymous.ask('POST', '/api/sign-in', { body: { person: 'chipo', passphrase } });
    expect(answer.body).toMatchObject({ person: 'chipo', duties: ['calibrate'], givenPassphrase: true });

    const listed = await administrator.ask('GET', '/api/people');
    expect(listed.body.items.map(({ key }: { key: string }) => key)).toEqual(['yuko', 'chipo']);
    expect(JSON.stringify(listed.body)).not.toContain(passphrase);
    expect(
      await queryAs(service.database.owner, `select 1 from ledger_entry where text like '%${passphrase}%'`),
    ).toEqual([]);
    expect((await administrator.ask('GET', '/api/people/set-up')).status, 'a program is no person').toBe(404);
  });

  it.each([
    [{ ...NEW_PERSON }, 409, 'state.conflict'],
    [{ ...NEW_PERSON, person: 'other', duties: ['send'] }, 422, 'body.enum'],
    [{ ...NEW_PERSON, person: 'other', duties: ['administer', 'review'] }, 403, 'duty.conflict'],
    [{ ...NEW_PERSON, person: 'rig.7' }, 422, 'body.format'],
    [{ ...NEW_PERSON, person: 'other', role: undefined }, 422, 'body.missing-field'],
    [{ ...NEW_PERSON, person: 'other', passphrase: 'chosen for them' }, 422, 'body.unknown-field'],
  ])('%j is refused with %d %s', async (body, status, code) => {
    expect(await administrator.ask('POST', '/api/people', { body })).toMatchObject({ status, body: { code } });
  });

  it('a duty given or taken acts with the next request: the session is over', async () => {
    const jorun = await service.signIn('jorun', ['record']);
    const before = await jorun.ask('GET', '/api/people/jorun');
    expect(before.headers.get('etag')).toBe('"1"');
    const begun = performance.now();
    const changed = await duties('jorun', ['record', 'calibrate', 'record'], 1);
    expect(changed).toMatchObject({ status: 200, body: { version: 2, content: { duties: ['record', 'calibrate'] } } });
    expect((await jorun.ask('GET', '/api/me')).body.code).toBe('auth.required');
    expect(performance.now() - begun).toBeLessThan(1000);
    const back = await service.signIn('jorun');
    expect((await back.ask('GET', '/api/me')).body.duties).toEqual(['record', 'calibrate']);
  });

  it('a change says which version it follows', async () => {
    await service.signIn('versioned', ['draw']);
    expect(await duties('versioned', [], 7)).toMatchObject({ status: 412, body: { code: 'version.stale' } });
    const without = await administrator.ask('PUT', '/api/people/versioned/duties', {
      body: { duties: [], reason: 'no duty left' },
    });
    expect(without).toMatchObject({ status: 428, body: { code: 'version.required' } });
    const noReason = await administrator.ask('PUT', '/api/people/versioned/duties', {
      body: { duties: [] },
      headers: { 'if-match': '"1"' },
    });
    expect(noReason).toMatchObject({ status: 422, body: { code: 'body.missing-field', pointer: '/reason' } });
    const renamed = await administrator.ask('PUT', '/api/people/versioned', {
      body: { name: 'Vera Sionn', role: 'store keeper', reason: 'married' },
      headers: { 'if-match': '"1"' },
    });
    expect(renamed.body).toMatchObject({
      version: 2,
      reason: 'married',
      content: { name: 'Vera Sionn', duties: ['draw'] },
    });
  });

  it('changes of duties need the passphrase again, which holds for five minutes', async () => {
    const other = await service.signIn('second-administrator', ['administer']);
    const add = () => other.ask('POST', '/api/people', { body: { ...NEW_PERSON, person: 'late' } });
    const fiveMinutesGo = () =>
      queryAs(
        service.database.owner,
        `update session set confirmed_at = confirmed_at - interval '5 minutes' where person_id = '${other.personId}'`,
      );
    await fiveMinutesGo();
    expect(await add()).toMatchObject({ status: 401, body: { code: 'auth.again' } });
    const wrong = await other.ask('POST', '/api/me/again', { body: { passphrase: 'not this one' } });
    expect(wrong).toMatchObject({ status: 401, body: { code: 'auth.failed' } });
    await other.again();
    await fiveMinutesGo();
    expect(await add()).toMatchObject({ status: 401, body: { code: 'auth.again' } });
    await other.again();
    expect((await add()).status).toBe(201);
  });

  it('one who has left signs in no more, keeps their name, and can come back', async () => {
    const leaver = await service.signIn('leaver', ['record']);
    const close = () =>
      administrator.ask('POST', '/api/people/leaver/closing', { body: { reason: 'has left the lab' } });
    expect((await close()).status).toBe(204);
    expect((await leaver.ask('GET', '/api/me')).status).toBe(401);
    const { passphrase } = leaver;
    const tried = await service.anonymous.ask('POST', '/api/sign-in', { body: { person: 'leaver', passphrase } });
    expect(tried).toMatchObject({ status: 401, body: { code: 'auth.failed' } });
    expect((await administrator.ask('GET', '/api/people/leaver')).body).toMatchObject({
      signsIn: false,
      content: { duties: ['record'] },
    });
    expect(await close()).toMatchObject({ status: 409, body: { code: 'state.conflict' } });

    const given = await administrator.ask('POST', '/api/people/leaver/passphrase');
    const back = await service.anonymous.ask('POST', '/api/sign-in', {
      body: { person: 'leaver', passphrase: given.body.passphrase },
    });
    expect(back.body).toMatchObject({ person: 'leaver', givenPassphrase: true });
  });

  it('never are without an administrator, though two take the duty from each other at once', async () => {
    const alone = await startTestService();
    try {
      const [one, two] = [await alone.signIn('one', ['administer']), await alone.signIn('two', ['administer'])];
      await Promise.all([one.again(), two.again()]);
      const take = (by: SignedInCaller, from: string, version = 1) =>
        by.ask('PUT', `/api/people/${from}/duties`, {
          body: { duties: [], reason: 'not needed' },
          headers: { 'if-match': `"${version}"` },
        });
      const answers = await Promise.all([take(one, 'two'), take(two, 'one')]);
      expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
      const left = answers[0]?.status === 200 ? one : two;
      expect(await take(left, left.person)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
      const closed = await left.ask('POST', `/api/people/${left.person}/closing`, { body: { reason: 'all go home' } });
      expect(closed).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
      expect((await left.ask('GET', '/api/me')).status).toBe(200);
    } finally {
      await alone.close();
    }
  });
});

describe('tokens of rigs', () => {
  beforeAll(async () => {
    await service.records.change(service.lab, 'rigs built', async (rows) => {
      for (const rig of ['burst-1', 'drum-1']) {
        const { id } = await rows.add(tables.Rig, { key: rig });
        await rows.addVersion(tables.RigVersion, id, { content: { rig, name: rig, location: 'bay 2' } });
      }
    });
  });

  const make = (rig: string, body: object = { note: 'bay computer', days: 365 }) =>
    administrator.ask('POST', `/api/rigs/${rig}/tokens`, { body });
  const call = (token: string) => service.withToken(token).ask('POST', '/api/runs', { body: new FormData() });

  it('are 256 bits, shown once, kept as a digest, and end within a year', async () => {
    const made = await make('burst-1');
    expect(made.status).toBe(201);
    const { token, at, expiresAt } = made.body;
    expect(Buffer.from(token.replace(/^bbrig_/, ''), 'base64url')).toHaveLength(32);
    expect(Date.parse(expiresAt) - Date.parse(at)).toBe(365 * 24 * 3600 * 1000);
    expect(await make('burst-1', { note: 'too long', days: 366 })).toMatchObject({
      status: 422,
      body: { code: 'body.range' },
    });
    const listed = await administrator.ask('GET', '/api/rigs/burst-1/tokens');
    expect(listed.body.items).toEqual([
      { number: 1, note: 'bay computer', at, by: 'yuko', expiresAt, state: 'in force' },
    ]);
    const secret = token.slice(6);
    const everything = await queryAs(service.database.owner, 'select text from ledger_entry');
    const kept = await queryAs(service.database.owner, 'select * from rig_token');
    expect(JSON.stringify([listed.body, everything, kept])).not.toContain(secret);
  });

  it('open the one way to send runs, and no other', async () => {
    const { token } = (await make('drum-1')).body;
    const sent = await call(token);
    expect(['auth.required', 'auth.forbidden']).not.toContain(sent.body.code);
    for (const [method, path] of [
      ['GET', '/api/lots'],
      ['GET', '/api/me'],
      ['GET', '/api/people'],
      ['POST', '/api/people'],
    ])
      expect(await service.withToken(token).ask(method ?? '', path ?? ''), path).toMatchObject({
        status: 403,
        body: { code: 'auth.forbidden' },
      });
    const unknown = await call(`${token.slice(0, -1)}${token.endsWith('A') ? 'B' : 'A'}`);
    expect(unknown).toMatchObject({ status: 401, body: { code: 'auth.required' } });
    expect(unknown.headers.get('www-authenticate')).toMatch(/^Bearer/);
    const basic = await service.anonymous.ask('GET', '/api/me', { headers: { authorization: 'Basic eXVrbzp4' } });
    expect(basic).toMatchObject({ status: 401, body: { code: 'auth.required' } });
  });

  it('two are in force while one takes the other’s place; a revoked one ends with the next call', async () => {
    const [old, fresh] = [(await make('drum-1')).body, await make('drum-1')];
    expect(fresh).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
    const begun = performance.now();
    const revoke = () =>
      administrator.ask('POST', `/api/rigs/drum-1/tokens/${old.number}/revocation`, {
        body: { reason: 'the computer was sold' },
      });
    expect(await revoke()).toMatchObject({
      status: 200,
      body: { state: 'revoked', revoked: { by: 'yuko', reason: 'the computer was sold' } },
    });
    expect(await call(old.token)).toMatchObject({ status: 401, body: { code: 'token.revoked' } });
    expect(performance.now() - begun).toBeLessThan(1000);
    expect((await revoke()).body.code).toBe('state.conflict');
    expect((await make('drum-1')).status).toBe(201);
    const wrongRig = await administrator.ask('POST', `/api/rigs/burst-1/tokens/${old.number}/revocation`, {
      body: { reason: 'x' },
    });
    expect(wrongRig.status).toBe(404);
  });

  it('made twice at once for one place left: one', async () => {
    const answers = await Promise.all([make('burst-1'), make('burst-1'), make('burst-1')]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  });

  it('come to their end by themselves', async () => {
    const token = 'bbrig_ends-in-a-millisecond';
    await service.records.change(service.lab, 'rig token made', async (rows) => {
      const rig = await rows.named(tables.Rig, 'burst-1');
      await rows.add(tables.RigToken, {
        rigId: rig.id,
        programId: service.lab.personId,
        note: 'a short one',
        sha256: digestOfSecret(token),
        expiresAt: new Date(rows.at.getTime() + 1),
      });
    });
    expect(await call(token)).toMatchObject({ status: 401, body: { code: 'token.expired' } });
    const { items } = (await administrator.ask('GET', '/api/rigs/burst-1/tokens')).body;
    expect(items.map(({ state }: { state: string }) => state)).toContain('expired');
  });
});

it('every row of it is in the ledger', async () => {
  const reader = service.records.read(service.lab.labId);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
});

import 'reflect-metadata';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { queryAs } from '../../../../../tests/database.ts';
import { type SignedInCaller, startTestService, type TestService } from '../../../../../tests/service.ts';
import { resetPassphrase } from '../first-passphrases.js';
import { ROUTE_DUTIES, ROUTES_ASKING_AGAIN, ROUTES_BEFORE_SECOND_FACTOR } from '../route-duties.fixture.js';
import { codeOf, stepAt } from './one-time-code.js';

let service: TestService;
beforeAll(async () => {
  service = await startTestService();
});
afterAll(() => service.close());

const owner = <T extends object>(sql: string) => queryAs<T & Record<string, unknown>>(service.database.owner, sql);
/** The half minute of the last code taken is forgotten, as if time had passed. */
const timePasses = () => owner('update code_generator set last_step = 0');
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** As an app reads it: the secret out of its letters. */
function secretOf(letters: string): Buffer {
  const bits = [...letters].map((letter) => ALPHABET.indexOf(letter).toString(2).padStart(5, '0')).join('');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
}

const codeFor = (secret: Buffer, steps = 0) => codeOf(secret, stepAt(Date.now()) + steps);

/** Somebody signed in with a passphrase and nothing else, whatever their duties. */
async function withPassphraseAlone(person: string, duties: Parameters<TestService['signIn']>[1]) {
  const known = await service.signIn(person, duties);
  await owner(`delete from code_generator where id = '${known.personId}'`);
  await owner(`delete from wrong_try`);
  return signedIn(person, known.passphrase);
}

async function signedIn(person: string, passphrase: string) {
  let cookie = '';
  const ask: SignedInCaller['ask'] = async (method, path, asking = {}) => {
    const answer = await service.anonymous.ask(method, path, { ...asking, headers: { cookie, ...asking.headers } });
    cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? cookie;
    return answer;
  };
  const { body } = await ask('POST', '/api/sign-in', { body: { person, passphrase } });
  return { ask, me: body, passphrase, cookieNow: () => cookie };
}

async function withGenerator(person: string, duties: Parameters<TestService['signIn']>[1]) {
  const somebody = await withPassphraseAlone(person, duties);
  const drawn = await somebody.ask('POST', '/api/me/code-generator');
  const secret = secretOf(drawn.body.secret);
  const taken = await somebody.ask('POST', '/api/me/code-generator/confirmation', { body: { code: codeFor(secret) } });
  expect(taken.status).toBe(200);
  return { ...somebody, secret, recoveryCodes: taken.body.recoveryCodes as string[], address: drawn.body.address };
}

describe('a code generator', () => {
  it('is added with a fresh passphrase and a first code; its secret is sealed, and stands in no ledger', async () => {
    const imke = await withPassphraseAlone('imke', ['review']);
    expect(imke.me).toMatchObject({ secondFactor: 'none', secondFactorNeeded: 'signing' });
    const drawn = await imke.ask('POST', '/api/me/code-generator');
    expect(drawn.body.address).toBe(
      `otpauth://totp/Saltmarsh%20Wheelworks%20test%20lab:imke?secret=${drawn.body.secret}&issuer=Saltmarsh%20Wheelworks%20test%20lab&period=30`,
    );
    const secret = secretOf(drawn.body.secret);
    expect(secret).toHaveLength(20);
    expect((await imke.ask('GET', '/api/me')).body.secondFactor, 'not yet in use').toBe('none');
    const confirm = (code: string) => imke.ask('POST', '/api/me/code-generator/confirmation', { body: { code } });
    expect(await confirm('000000')).toMatchObject({ status: 401, body: { code: 'auth.failed' } });
    const taken = await confirm(codeFor(secret));
    expect(taken.body.recoveryCodes).toHaveLength(10);
    expect(new Set(taken.body.recoveryCodes).size).toBe(10);
    for (const code of taken.body.recoveryCodes) expect(code).toMatch(/^([a-z2-7]{4}-){3}[a-z2-7]{4}$/);
    expect((await imke.ask('GET', '/api/me')).body.secondFactor).toBe('given');
    expect(await imke.ask('POST', '/api/me/code-generator')).toMatchObject({
      status: 409,
      body: { code: 'state.conflict' },
    });

    const kept = JSON.stringify([
      await owner('select * from code_generator'),
      await owner('select * from recovery_code'),
      await owner('select * from ledger_entry'),
    ]);
    for (const told of [
      drawn.body.secret,
      secret.toString('base64'),
      secret.toString('hex'),
      ...taken.body.recoveryCodes,
    ])
      expect(kept).not.toContain(told);
    const causes = await owner<{ cause: string }>('select cause from credential_change order by id desc limit 2');
    expect(causes.map(({ cause }) => cause)).toEqual(['recovery codes drawn', 'code generator added']);
  });

  it('is asked for at the next sign-in: until its code is given nothing opens but the way to give it', async () => {
    const { secret, passphrase } = await withGenerator('gate', ['record']);
    await timePasses();
    const gate = await signedIn('gate', passphrase);
    expect(gate.me).toMatchObject({ secondFactor: 'owed', secondFactorNeeded: 'nothing' });
    for (const [route, duty] of Object.entries(ROUTE_DUTIES)) {
      if (duty === 'anybody' || ROUTES_BEFORE_SECOND_FACTOR[route] === 'giving') continue;
      const [method = '', path = ''] = route.split(' ');
      const answer = await gate.ask(method, path.replaceAll(/:[a-zA-Z]+/g, 'none'));
      expect(answer, route).toMatchObject({ status: 401, body: { code: 'auth.again' } });
    }
    expect((await gate.ask('POST', '/api/me/second-factor', { body: { code: codeFor(secret) } })).status).toBe(204);
    expect((await gate.ask('GET', '/api/lots')).status).toBe(200);
    expect((await gate.ask('GET', '/api/me')).body.secondFactor).toBe('given');
  });

  it('takes no code twice, though fifty give it at once, and none older than the last', async () => {
    const { secret, ask } = await withGenerator('twice', []);
    await timePasses();
    const give = (code: string) => ask('POST', '/api/me/second-factor', { body: { code } });
    expect((await give(codeFor(secret))).status).toBe(204);
    expect((await give(codeFor(secret))).body.code).toBe('auth.failed');
    expect((await give(codeFor(secret, -1))).body.code).toBe('auth.failed');
    await owner('delete from wrong_try');
    expect((await give(codeFor(secret, 1))).status, 'the next one').toBe(204);
  });

  it('of two who give one code at once, one is let in', async () => {
    const { secret, passphrase } = await withGenerator('raced', []);
    const both = await Promise.all([1, 2, 3, 4].map(() => signedIn('raced', passphrase)));
    await timePasses();
    const code = codeFor(secret);
    const answers = await Promise.all(both.map(({ ask }) => ask('POST', '/api/me/second-factor', { body: { code } })));
    expect(answers.map(({ status }) => status).sort()).toEqual([204, 401, 401, 401]);
  });

  it('is throttled as passphrases are: five wrong codes are looked at, the others wait', async () => {
    const { ask } = await withGenerator('guessed', []);
    await owner('delete from wrong_try');
    const give = (n: number) => ask('POST', '/api/me/second-factor', { body: { code: String(100_000 + n) } });
    const answers = [];
    for (let n = 0; n < 30; n += 1) answers.push(await give(n));
    expect(answers.slice(0, 5).map(({ status }) => status)).toEqual([401, 401, 401, 401, 401]);
    const waiting = answers.filter(({ status }) => status === 429);
    expect(waiting.length).toBeGreaterThanOrEqual(22);
    for (const { headers } of waiting) expect(Number(headers.get('retry-after'))).toBeGreaterThanOrEqual(1);
    await owner(`update wrong_try set tries = 100, next_at = now()`);
    expect((await give(99)).status, 'never more than a hundred in a row').toBe(429);
  });
});

describe('a recovery code', () => {
  it('opens once, leaves an entry, and new ones take the place of all', async () => {
    const { recoveryCodes, ask } = await withGenerator('lost', []);
    const give = (code = '') => ask('POST', '/api/me/second-factor', { body: { code } });
    const [first = '', second = '', third = ''] = recoveryCodes;
    expect((await give(first.toUpperCase().replaceAll('-', ' '))).status).toBe(204);
    expect((await give(first)).body.code).toBe('auth.failed');
    expect((await ask('GET', '/api/me/second-factor')).body).toMatchObject({ codeGenerator: true, recoveryCodes: 9 });
    const [entry] = await owner<{ action: string }>('select action from ledger_entry order by sequence desc limit 1');
    expect(entry?.action).toBe('recovery code used');
    expect((await give(second)).status).toBe(204);
    const fresh = (await ask('POST', '/api/me/recovery-codes')).body.recoveryCodes;
    expect((await give(third)).body.code).toBe('auth.failed');
    expect((await give(fresh[0])).status).toBe(204);
  });

  it('given by ten at once opens for one', async () => {
    const { recoveryCodes, passphrase } = await withGenerator('shared', []);
    const several = await Promise.all(Array.from({ length: 5 }, () => signedIn('shared', passphrase)));
    const answers = await Promise.all(
      several.map(({ ask }) => ask('POST', '/api/me/second-factor', { body: { code: recoveryCodes[0] } })),
    );
    expect(answers.filter(({ status }) => status === 204)).toHaveLength(1);
  });
});

describe('what is done in somebody’s name', () => {
  it.each([
    ['review', true],
    ['decide', true],
    ['issue', true],
    ['administer', true],
    ['record', false],
    ['audit', false],
  ] as const)('asks whoever has the duty %s for a second factor: %s', async (duty, asked) => {
    const { ask } = await withPassphraseAlone(`only-${duty}`, [duty]);
    for (const route of ROUTES_ASKING_AGAIN) {
      const [method = '', path = ''] = route.split(' ');
      const held = ROUTE_DUTIES[route];
      if (held !== 'signed in' && !held?.includes(duty as never)) continue;
      // Whoever has none may add one.
      if (ROUTES_BEFORE_SECOND_FACTOR[route] === 'adding') continue;
      const answer = await ask(method, path.replaceAll(/:[a-zA-Z]+/g, 'none'), { body: {} });
      if (asked) expect(answer, route).toMatchObject({ status: 401, body: { code: 'auth.again' } });
      else expect(answer.body?.code, route).not.toBe('auth.again');
    }
  });

  it('asks for it again after five minutes, as for the passphrase', async () => {
    const { secret, ask, passphrase } = await withGenerator('stale', ['administer']);
    const add = (person: string) =>
      ask('POST', '/api/people', { body: { person, name: 'Somebody', role: 'technician', duties: [] } });
    expect((await add('one-of-many')).status).toBe(201);
    await owner(`update session set second_at = second_at - interval '5 minutes'`);
    expect(await add('another')).toMatchObject({ status: 401, body: { code: 'auth.again' } });
    await ask('POST', '/api/me/again', { body: { passphrase } });
    expect((await add('another')).status, 'the passphrase alone does not do').toBe(401);
    await timePasses();
    await ask('POST', '/api/me/second-factor', { body: { code: codeFor(secret) } });
    expect((await add('another')).status).toBe(201);
  });

  it('a factor is added to another only by whoever has given that one', async () => {
    const { passphrase } = await withGenerator('guarded', ['decide']);
    const thief = await signedIn('guarded', passphrase);
    for (const route of ['code-generator', 'passkeys/offer', 'recovery-codes', 'code-generator/removal'])
      expect(await thief.ask('POST', `/api/me/${route}`), route).toMatchObject({
        status: 401,
        body: { code: 'auth.again' },
      });
  });
});

describe('a second factor that was lost', () => {
  it('is taken away by an administrator: sessions end, the passphrase stays', async () => {
    const { ask, passphrase } = await withGenerator('loser', ['decide']);
    const administrator = await service.signIn('yuko', ['administer']);
    const take = () =>
      administrator.ask('POST', '/api/people/loser/second-factor/removal', { body: { reason: 'telephone broken' } });
    expect((await take()).status).toBe(204);
    expect((await ask('GET', '/api/me')).status).toBe(401);
    expect((await signedIn('loser', passphrase)).me).toMatchObject({ secondFactor: 'none', person: 'loser' });
    expect(
      (await administrator.ask('POST', '/api/people/nobody/second-factor/removal', { body: { reason: 'x' } })).status,
    ).toBe(404);
  });

  it('is taken away at the machine with the passphrase', async () => {
    await withGenerator('alone', ['administer']);
    const given = await resetPassphrase(service.records, service.lab.labId, 'alone');
    expect((await signedIn('alone', given)).me).toMatchObject({ secondFactor: 'none', givenPassphrase: true });
  });
});

it('a lab may ask everybody for one: until it is there nothing opens but the way to it', async () => {
  const strict = await startTestService();
  try {
    const administrator = await strict.signIn('yuko', ['administer']);
    const recorder = await strict.signIn('jorun', ['record']);
    const { body, headers } = await administrator.ask('GET', '/api/labs/saltmarsh');
    const asked = await administrator.ask('PUT', '/api/labs/saltmarsh', {
      body: { content: { ...body.content, secondFactor: 'everyone' }, reason: 'audit 2031-2' },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(asked.status).toBe(200);
    expect(await recorder.ask('GET', '/api/lots')).toMatchObject({ status: 401, body: { code: 'auth.again' } });
    expect((await recorder.ask('GET', '/api/me')).body).toMatchObject({
      secondFactor: 'none',
      secondFactorNeeded: 'everything',
    });
    const { secret } = (await recorder.ask('POST', '/api/me/code-generator')).body;
    const code = codeFor(secretOf(secret));
    expect((await recorder.ask('POST', '/api/me/code-generator/confirmation', { body: { code } })).status).toBe(200);
    expect((await recorder.ask('GET', '/api/lots')).status).toBe(200);
  } finally {
    await strict.close();
  }
});

it('every row of it is in the ledger', async () => {
  const reader = service.records.read(service.lab.labId);
  expect(await verifyRecords(reader, new PostgresRawStore())).toMatchObject({ holds: true });
});

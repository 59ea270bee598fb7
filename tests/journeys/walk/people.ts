import { codeOf, stepAt } from '../../../apps/service/src/sign-in/second-factor/one-time-code.ts';
import { queryAs } from '../../database.ts';
import { aCaller, signInAt } from '../../service.ts';
import { SoftPasskey } from './soft-passkey.ts';
import { reason, seen, type Walk } from './walk.ts';

/** People, their duties, and what they sign in with. */
export async function walkPeople({ routes, bundle, as }: Walk): Promise<void> {
  const admin = as('y-hamasaki');
  await routes.put(admin, 'PUT /api/labs/:lab', { lab: 'saltmarsh' }, (content) => ({ ...content, address: 'Quay 2' }));
  const newcomer = { person: 'newcomer', name: 'New Comer', role: 'technician', duties: ['record'] };
  await routes.call(admin, 'POST /api/people', {}, { body: newcomer });
  const person = { person: 'newcomer' };
  const at = '/api/people/newcomer';
  await routes.call(admin, 'PUT /api/people/:person', person, {
    headers: await seen(admin, at),
    body: { name: 'New Name', role: 'technician', reason },
  });
  await routes.call(admin, 'PUT /api/people/:person/duties', person, {
    headers: await seen(admin, at),
    body: { duties: ['draw'], reason },
  });
  await routes.call(admin, 'POST /api/people/:person/passphrase', person);
  const identity = { issuer: 'https://people.example.org', subject: 'n-1', reason };
  await routes.call(admin, 'POST /api/people/:person/outside-identity', person, { body: identity });
  await routes.call(admin, 'POST /api/people/:person/outside-identity/ending', person, { body: { reason } });
  const loser = { person: 'loser' };
  await routes.call(admin, 'POST /api/people/:person/second-factor/removal', loser, { body: { reason } });
  await routes.call(admin, 'POST /api/people/:person/closing', person, { body: { reason } });
  const keyed = { method: 'BURST-TABLE', revision: 1 };
  for (const { method, revision } of [...bundle.methods, keyed]) {
    const body = { method, revision, level: 'authorised', until: '2099-12-31', note: 'six runs watched' };
    await routes.call(as('trainer'), 'POST /api/people/:person/competences', { person: 'a-grossmann' }, { body });
  }
  const token = { note: 'computer of the rig', days: 30 };
  const made = await routes.call(admin, 'POST /api/rigs/:rig/tokens', { rig: 'R1' }, { body: token });
  const names = { rig: 'R1', number: made.body.number };
  await routes.call(admin, 'POST /api/rigs/:rig/tokens/:number/revocation', names, { body: { reason } });
}

/** What somebody does with their own passphrase, second factors and sessions. */
export async function walkOwn({ service, routes }: Walk): Promise<void> {
  // Passkeys are made for a name.
  const url = service.url.replace('127.0.0.1', 'localhost');
  const { database, keys, lab } = service;
  const house = { url, database, keys, lab, callerWith: (headers: Record<string, string>) => aCaller(url, headers) };
  const own = await signInAt(house, 'keeps-keys', ['review']);
  await routes.call(own, 'POST /api/me/recovery-codes');
  const offer = await routes.call(own, 'POST /api/me/passkeys/offer');
  const passkey = new SoftPasskey(url, 'localhost');
  const made = { name: 'telephone', ...passkey.made(offer.body.challenge), transports: [] };
  await routes.call(own, 'POST /api/me/passkeys', {}, { body: made });
  const { passphrase } = own;
  await routes.call(own, 'POST /api/me/again', {}, { body: { passphrase } });
  const question = await routes.call(own, 'POST /api/me/second-factor/passkey/question');
  const signed = passkey.signed(question.body.challenge);
  await routes.call(own, 'POST /api/me/second-factor/passkey', {}, { body: signed });
  await routes.call(own, 'POST /api/me/code-generator/removal');
  const drawn = await routes.call(own, 'POST /api/me/code-generator');
  const code = () => ({ code: codeOf(fromBase32(drawn.body.secret), stepAt(Date.now())) });
  await routes.call(own, 'POST /api/me/code-generator/confirmation', {}, { body: code() });
  await queryAs(database.owner, 'update code_generator set last_step = 0');
  await own.ask('POST', '/api/me/again', { body: { passphrase } });
  await routes.call(own, 'POST /api/me/second-factor', {}, { body: code() });
  const { body: factors } = await own.ask('GET', '/api/me/second-factor');
  await routes.call(own, 'POST /api/me/passkeys/:passkey/removal', { passkey: factors.passkeys[0].id });

  const other = aCaller(url, {});
  await other.ask('POST', '/api/sign-in', { body: { person: own.person, passphrase } });
  const { body: sessions } = await own.ask('GET', '/api/me/sessions');
  const elsewhere = sessions.items.find((one: { current: boolean }) => !one.current);
  await routes.call(own, 'POST /api/me/sessions/:session/ending', { session: elsewhere.id });
  await routes.call(own, 'POST /api/me/sessions/ending');
  const words = { current: passphrase, passphrase: 'seven geese over the salt marsh' };
  await routes.call(own, 'POST /api/me/passphrase', {}, { body: words });
  await routes.call(own, 'POST /api/sign-out');
  const again = { person: own.person, passphrase: words.passphrase };
  await routes.call(own, 'POST /api/sign-in', {}, { body: again });
}

/** The letters of RFC 4648, 6, as an app that makes codes reads them. */
function fromBase32(letters: string): Buffer {
  const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
  const bits = [...letters].map((letter) => alphabet.indexOf(letter).toString(2).padStart(5, '0')).join('');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
}

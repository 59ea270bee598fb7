import { Refusal } from '@breakbook/lab';
import { newId, Records, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import type { AuthenticatorTransport } from '@simplewebauthn/server';
import { DataSource } from 'typeorm';
import type { SignedInActor } from '../signed-in.decorator.js';
import type { NewPasskey, PasskeyAnswer } from './passkey-forms.js';
import { firstRecoveryCodes } from './recovery-codes.js';
import type { RelyingParty } from './relying-party.js';

/** What is asked to be signed is forgotten then. */
const CHALLENGE_HOLDS = '5 minutes';

interface KnownPasskey {
  id: string;
  credential: string;
  publicKey: string;
  transports: AuthenticatorTransport[];
  uses: string;
}

/** Loaded where a passkey is met: it reads certificates of a dozen makers, which a start does not need. */
const webAuthn = () => import('@simplewebauthn/server');

/**
 * Passkeys: a key pair whose private half stays in a person's device, which signs a challenge for this service's name
 * and no other, so that no page elsewhere can ask for it (Web Authentication, level 2, W3C).
 */
@Injectable()
export class Passkeys {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: Records,
  ) {}

  /** What a browser needs to have a passkey made. */
  async offer(by: SignedInActor, name: string, party: RelyingParty) {
    const { generateRegistrationOptions } = await webAuthn();
    const options = await generateRegistrationOptions({
      rpName: 'Breakbook',
      rpID: party.id,
      userID: new Uint8Array(Buffer.from(by.personId)),
      userName: by.person,
      userDisplayName: name,
      attestationType: 'none',
      excludeCredentials: (await this.#of(by)).map(({ credential: id, transports }) => ({ id, transports })),
      authenticatorSelection: { residentKey: 'discouraged', userVerification: 'preferred' },
    });
    await this.#keepChallenge(by, options.challenge);
    return options;
  }

  /** Adds a passkey that was made for the challenge of this session. Answers recovery codes where there were none. */
  async add(by: SignedInActor, made: NewPasskey, party: RelyingParty): Promise<string[]> {
    const { verifyRegistrationResponse } = await webAuthn();
    const { id, clientDataJSON, attestationObject } = made;
    const { verified, registrationInfo } = await verifyRegistrationResponse({
      response: {
        id,
        rawId: id,
        type: 'public-key',
        response: { clientDataJSON, attestationObject },
        clientExtensionResults: {},
      },
      expectedChallenge: await this.#takeChallenge(by),
      expectedOrigin: party.origin,
      expectedRPID: party.id,
      requireUserVerification: false,
    }).catch(refused);
    if (!verified) throw notRight();
    const { credential } = registrationInfo;
    return this.records.change(by, 'passkey added', async (rows) => {
      await rows.manager.query(
        `insert into passkey (lab_id, id, person_id, name, credential, public_key, transports, uses, added_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
        [
          by.labId,
          newId(),
          by.personId,
          made.name,
          credential.id,
          Buffer.from(credential.publicKey).toString('base64url'),
          JSON.stringify(made.transports),
          credential.counter,
          rows.at,
        ],
      );
      await rows.add(tables.CredentialChange, { whoseId: by.personId, cause: 'passkey added' });
      return firstRecoveryCodes(rows);
    });
  }

  async remove(by: SignedInActor, id: string): Promise<void> {
    await this.records.change(by, 'passkey removed', async (rows) => {
      const [, removed] = await rows.manager.query<[unknown[], number]>(
        'delete from passkey where lab_id = $1 and person_id = $2 and id::text = $3',
        [by.labId, by.personId, id],
      );
      if (removed === 0)
        throw new Refusal({ code: 'request.not-found', detail: 'There is no such passkey, or it is not yours.' });
      await rows.add(tables.CredentialChange, { whoseId: by.personId, cause: 'passkey removed' });
    });
  }

  /** What a browser needs to have one of their passkeys sign. */
  async ask(by: SignedInActor, party: RelyingParty) {
    const known = await this.#of(by);
    if (known.length === 0)
      throw new Refusal({
        code: 'state.conflict',
        detail: 'You have no passkey.',
        action: 'Give a code instead, or add a passkey on your own page.',
      });
    const { generateAuthenticationOptions } = await webAuthn();
    const options = await generateAuthenticationOptions({
      rpID: party.id,
      allowCredentials: known.map(({ credential: id, transports }) => ({ id, transports })),
      userVerification: 'preferred',
    });
    await this.#keepChallenge(by, options.challenge);
    return options;
  }

  /** Refuses what none of their passkeys has signed for the challenge of this session. */
  async check(by: SignedInActor, answer: PasskeyAnswer, party: RelyingParty): Promise<void> {
    const { verifyAuthenticationResponse } = await webAuthn();
    const challenge = await this.#takeChallenge(by);
    const key = (await this.#of(by)).find(({ credential }) => credential === answer.id);
    if (!key) throw notRight();
    const { clientDataJSON, authenticatorData, signature } = answer;
    const { verified, authenticationInfo } = await verifyAuthenticationResponse({
      response: {
        id: answer.id,
        rawId: answer.id,
        type: 'public-key',
        response: { clientDataJSON, authenticatorData, signature },
        clientExtensionResults: {},
      },
      expectedChallenge: challenge,
      expectedOrigin: party.origin,
      expectedRPID: party.id,
      credential: {
        id: key.credential,
        publicKey: new Uint8Array(Buffer.from(key.publicKey, 'base64url')),
        counter: Number(key.uses),
        transports: key.transports,
      },
      requireUserVerification: false,
    }).catch(refused);
    if (!verified) throw notRight();
    await this.dataSource.query('update passkey set uses = $3, used_at = now() where lab_id = $1 and id = $2', [
      by.labId,
      key.id,
      authenticationInfo.newCounter,
    ]);
  }

  #of({ labId, personId }: SignedInActor): Promise<KnownPasskey[]> {
    return this.dataSource.query<KnownPasskey[]>(
      `select id, credential, public_key as "publicKey", transports, uses from passkey
       where lab_id = $1 and person_id = $2 order by id`,
      [labId, personId],
    );
  }

  async #keepChallenge({ labId, sessionId }: SignedInActor, challenge: string): Promise<void> {
    await this.dataSource.query(
      'update session set challenge = $3, challenge_at = now() where lab_id = $1 and id = $2',
      [labId, sessionId, challenge],
    );
  }

  /** A challenge is answered once, rightly or wrongly. */
  async #takeChallenge({ labId, sessionId }: SignedInActor): Promise<string> {
    const [[taken] = []] = await this.dataSource.query<[{ challenge: string }[], number]>(
      `update session set challenge = null from session as before
       where session.lab_id = $1 and session.id = $2 and before.lab_id = session.lab_id and before.id = session.id
         and before.challenge is not null and before.challenge_at > now() - $3::interval
       returning before.challenge`,
      [labId, sessionId, CHALLENGE_HOLDS],
    );
    if (!taken)
      throw new Refusal({
        code: 'auth.failed',
        detail: 'This session has asked for no passkey within the last minutes.',
        action: 'Begin again.',
      });
    return taken.challenge;
  }
}

/** The library says what did not fit as an error in its own words; none of them is told to whoever tried. */
function refused(): never {
  throw notRight();
}

function notRight(): Refusal {
  return new Refusal({
    code: 'auth.failed',
    detail: 'What the passkey answered does not fit what was asked.',
    action: 'Begin again, with a passkey that was added for this person at this address.',
  });
}

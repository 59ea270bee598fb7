import { type Duty, Refusal } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Credentials, givePassphrase } from './credentials.js';
import { LabsOfSignIn } from './labs-of-sign-in.js';
import { hashPassphrase } from './passphrase-hash.js';
import { needsSecondFactor } from './second-factor/second-factor-needed.js';
import { type Session, Sessions } from './sessions.js';
import type { SignedInActor } from './signed-in.decorator.js';

/** Who is signed in, as their own page shows it. */
export interface Myself {
  lab: { lab: string; name: string };
  person: string;
  name: string;
  role: string;
  duties: Duty[];
  /** The passphrase was given by somebody else; until an own one is chosen nothing else is open. */
  givenPassphrase: boolean;
  /** Whether there is something beside the passphrase, and whether it was given in this session. */
  secondFactor: Session['second'];
  /** For what duties or lab ask for it. */
  secondFactorNeeded: 'nothing' | 'signing' | 'everything';
}

/** Where somebody signs in from: the session this browser had before, and what it calls itself. */
export interface Browser {
  before: string | undefined;
  device: string;
}

/** Signing in and out, and one's own passphrase. */
@Injectable()
export class SignInService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: Records,
    private readonly credentials: Credentials,
    private readonly sessions: Sessions,
    private readonly labs: LabsOfSignIn,
  ) {}

  /** Begins a session; one that the browser had before ends, so that nobody can have laid a known one there. */
  async signIn(
    { lab, person, passphrase }: { lab?: string | undefined; person: string; passphrase: string },
    { before, device }: Browser,
  ): Promise<{ secret: string; me: Myself }> {
    const where = await this.labs.whereSignsIn(lab, person);
    const known = await this.credentials.check(where.labId, where.person, passphrase);
    if (before !== undefined) await this.sessions.end(before);
    const secret = await this.sessions.begin(where.labId, known.personId, device);
    return { secret, me: await this.whoHas(secret) };
  }

  /** Who has the session of this secret. */
  async whoHas(secret: string): Promise<Myself> {
    const session = await this.sessions.find(secret);
    if (!session) throw new Error('A session ended in the moment in which it began.');
    return this.me(session);
  }

  async me({
    labId,
    personId,
    second = 'none',
    askedOfEveryone = false,
  }: Pick<SignedInActor, 'labId' | 'personId' | 'second' | 'askedOfEveryone'>): Promise<Myself> {
    const reader = this.records.read(labId);
    const [{ content: lab }, { content: self }, [credential]] = await Promise.all([
      reader.latest(tables.LabVersion, labId),
      reader.latest(tables.PersonVersion, personId),
      this.dataSource.query<{ temporary: boolean }[]>(
        'select temporary from credential where lab_id = $1 and id = $2',
        [labId, personId],
      ),
    ]);
    const { person, name, role, duties } = self;
    const givenPassphrase = credential?.temporary ?? false;
    return {
      lab: { lab: lab.lab, name: lab.name },
      person,
      name,
      role,
      duties,
      givenPassphrase,
      secondFactor: second,
      secondFactorNeeded: askedOfEveryone ? 'everything' : needsSecondFactor(duties) ? 'signing' : 'nothing',
    };
  }

  /** Gives the passphrase again, for acts that need it fresh. The answer is the secret under which the session goes on. */
  async again(by: SignedInActor & { sessionId: string }, passphrase: string): Promise<string> {
    await this.credentials.check(by.labId, by.person, passphrase);
    return this.sessions.confirm({ labId: by.labId, id: by.sessionId }, 'passphrase');
  }

  /** Takes an own passphrase in place of the one before. Every session ends; the answer is the secret of a new one. */
  async choosePassphrase(by: SignedInActor, current: string, passphrase: string, device: string): Promise<string> {
    await this.credentials.check(by.labId, by.person, current);
    const { name, role, lab } = await this.me(by);
    // Loaded here: 49,000 common passphrases are unpacked, which only a new one is compared with.
    const { refuseWeakPassphrase } = await import('./passphrase-rules.js');
    refuseWeakPassphrase(passphrase, [by.person, name, role, lab.name]);
    if (passphrase.normalize('NFKC') === current.normalize('NFKC'))
      throw new Refusal({
        code: 'body.text-invalid',
        pointer: '/passphrase',
        detail: 'This is the passphrase you have already. Choose another one.',
      });
    const hash = await hashPassphrase(passphrase);
    await this.records.change(by, 'passphrase chosen', (rows) =>
      givePassphrase(rows, { id: by.personId, key: by.person }, hash, { cause: 'own choice', temporary: false }),
    );
    return this.sessions.begin(by.labId, by.personId, device);
  }

  async signOut(secret: string | undefined): Promise<void> {
    if (secret !== undefined) await this.sessions.end(secret);
  }
}

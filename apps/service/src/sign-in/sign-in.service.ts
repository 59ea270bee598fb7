import { type Duty, Refusal } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Credentials, givePassphrase } from './credentials.js';
import { hashPassphrase } from './passphrase-hash.js';
import { Sessions } from './sessions.js';
import { type SignedInActor } from './signed-in.decorator.js';

/** Who is signed in, as their own page shows it. */
export interface Myself {
  lab: { lab: string; name: string };
  person: string;
  name: string;
  role: string;
  duties: Duty[];
  /** The passphrase was given by somebody else; until an own one is chosen nothing else is open. */
  givenPassphrase: boolean;
}

/** Signing in and out, and one's own passphrase. */
@Injectable()
export class SignInService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: Records,
    private readonly credentials: Credentials,
    private readonly sessions: Sessions,
  ) {}

  /** Begins a session; one that the browser had before ends, so that nobody can have laid a known one there. */
  async signIn(
    person: string,
    passphrase: string,
    before: string | undefined,
  ): Promise<{ secret: string; me: Myself }> {
    const [lab] = await this.records.labs();
    if (!lab)
      throw new Refusal({
        code: 'auth.failed',
        detail: 'There is no lab in this installation yet, and so nobody in it.',
      });
    const known = await this.credentials.check(lab.id, person, passphrase);
    if (before !== undefined) await this.sessions.end(before);
    const secret = await this.sessions.begin(lab.id, known.personId);
    return { secret, me: await this.me({ labId: lab.id, personId: known.personId }) };
  }

  async me({ labId, personId }: Pick<SignedInActor, 'labId' | 'personId'>): Promise<Myself> {
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
    return { lab: { lab: lab.lab, name: lab.name }, person, name, role, duties, givenPassphrase };
  }

  /** Gives the passphrase again, for acts that need it fresh. */
  async again(by: SignedInActor, passphrase: string): Promise<void> {
    await this.credentials.check(by.labId, by.person, passphrase);
    if (by.sessionId !== undefined) await this.sessions.confirm({ labId: by.labId, id: by.sessionId });
  }

  /** Takes an own passphrase in place of the one before. Every session ends; the answer is the secret of a new one. */
  async choosePassphrase(by: SignedInActor, current: string, passphrase: string): Promise<string> {
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
    return this.sessions.begin(by.labId, by.personId);
  }

  async signOut(secret: string | undefined): Promise<void> {
    if (secret !== undefined) await this.sessions.end(secret);
  }
}

import { type Duty, type Person, Refusal } from '@breakbook/lab';
import { type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import type { Kept, PageOf } from '../records/kept.js';
import type { Paging } from '../records/paging.js';
import { keptAs, keptOne, keptPage } from '../records/read-kind.js';
import { define } from '../records/write-kind.js';
import { endSessionsOf, givePassphrase, takePassphrase } from '../sign-in/credentials.js';
import { drawPassphrase } from '../sign-in/drawn-passphrase.js';
import { SIGNING_DUTIES } from '../sign-in/forbidden-pairs.js';
import { hashPassphrase } from '../sign-in/passphrase-hash.js';
import { takeSecondFactors } from '../sign-in/second-factor/second-factors.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { PERSON } from './person-kind.js';

/** Keys that begin so are given to the computers of rigs. */
export const RIG_PROGRAM = 'rig.';

export interface KeptPerson extends Kept<Person> {
  /** Has a passphrase: a person who has left keeps their name under what they did, and signs in no more. */
  signsIn: boolean;
}

/** Who works in the lab, what they may do, and that they can sign in. */
@Injectable()
export class PeopleService {
  constructor(private readonly records: Records) {}

  async list(labId: string, paging: Paging): Promise<PageOf<KeptPerson>> {
    const reader = this.records.read(labId);
    const { items, next } = await keptPage(reader, PERSON, paging, { kind: 'person' });
    const able = await ableToSignIn(reader);
    return { items: items.map((item) => ({ ...item, signsIn: able.has(item.key) })), next };
  }

  async one(labId: string, key: string): Promise<KeptPerson> {
    const reader = this.records.read(labId);
    await personCalled(reader, key);
    return { ...(await keptOne(reader, PERSON, key)), signsIn: (await ableToSignIn(reader)).has(key) };
  }

  /** Adds somebody. The passphrase in the answer is shown this once, and is theirs until they choose an own one. */
  async add(by: SignedInActor, content: Person): Promise<KeptPerson & { passphrase: string }> {
    refuseTogether(content.duties);
    if (content.person.toLowerCase().startsWith(RIG_PROGRAM))
      throw new Refusal({
        code: 'body.format',
        pointer: '/person',
        found: content.person,
        detail: `Names that begin with "${RIG_PROGRAM}" belong to the computers of rigs. Choose another one.`,
      });
    const { passphrase, hash } = await drawn();
    const kept = await this.records.change(by, 'person added', async (rows) => {
      const said = await define(rows, PERSON, content);
      await givePassphrase(rows, said.noun, hash, { cause: 'given by administrator', temporary: true });
      return keptAs(rows, PERSON, said);
    });
    return { ...kept, signsIn: true, passphrase };
  }

  /** Changes name and role, or what somebody may do; their sessions end, so that nothing of before goes on. */
  async change(
    by: SignedInActor,
    key: string,
    changed: Partial<Pick<Person, 'name' | 'role' | 'duties'>>,
    reason: string,
    follows: number,
  ): Promise<KeptPerson> {
    if (changed.duties) refuseTogether(changed.duties);
    const action = changed.duties ? 'duties changed' : 'person changed';
    return this.records.change(by, action, reason, async (rows) => {
      await rows.lock(tables.Lab, by.labId);
      const noun = await personCalled(rows, key);
      const { content } = await rows.latest(tables.PersonVersion, noun.id);
      const version = await rows.addVersion(
        tables.PersonVersion,
        noun.id,
        { content: { ...content, ...changed } },
        follows,
      );
      if (changed.duties) await endSessionsOf(rows, noun.id);
      await requireAdministrator(rows);
      return { ...(await keptAs(rows, PERSON, { noun, version })), signsIn: (await ableToSignIn(rows)).has(key) };
    });
  }

  /** A new passphrase for somebody who has lost theirs, or who is back. Shown this once. */
  async newPassphrase(by: SignedInActor, key: string): Promise<{ person: string; passphrase: string }> {
    const { passphrase, hash } = await drawn();
    await this.records.change(by, 'passphrase given', async (rows) =>
      givePassphrase(rows, await personCalled(rows, key), hash, { cause: 'given by administrator', temporary: true }),
    );
    return { person: key, passphrase };
  }

  /** For somebody who has lost what they had beside the passphrase. */
  async takeSecondFactors(by: SignedInActor, key: string, reason: string): Promise<void> {
    await this.records.change(by, 'second factors taken away', reason, async (rows) =>
      takeSecondFactors(rows, await personCalled(rows, key)),
    );
  }

  /** Somebody signs in no more. What they did stays under their name. */
  async close(by: SignedInActor, key: string, reason: string): Promise<void> {
    await this.records.change(by, 'sign-in closed', reason, async (rows) => {
      await rows.lock(tables.Lab, by.labId);
      const { id } = await personCalled(rows, key);
      if (!(await ableToSignIn(rows)).has(key))
        throw new Refusal({ code: 'state.conflict', detail: `${key} cannot sign in anyhow. Nothing was changed.` });
      await takePassphrase(rows, id);
      await requireAdministrator(rows);
    });
  }
}

/** The person of this name; a program is none. */
export async function personCalled(reader: Reader, key: string): Promise<tables.Person> {
  const person = await reader.named(tables.Person, key);
  if (person.kind === 'person') return person;
  throw new Refusal({ code: 'request.not-found', detail: `There is no person "${key}" in this lab.` });
}

async function drawn(): Promise<{ passphrase: string; hash: string }> {
  const passphrase = drawPassphrase();
  return { passphrase, hash: await hashPassphrase(passphrase) };
}

async function ableToSignIn(reader: Reader): Promise<Set<string>> {
  const able = await reader.manager.query<{ key: string }[]>(
    'select person.key from person join credential using (lab_id, id) where person.lab_id = $1',
    [reader.labId],
  );
  return new Set(able.map(({ key }) => key));
}

/** Whoever gives and takes duties signs no result: the two never go together. */
function refuseTogether(duties: readonly Duty[]): void {
  const signing = duties.filter((duty) => SIGNING_DUTIES.includes(duty));
  if (!duties.includes('administer') || signing.length === 0) return;
  throw new Refusal({
    code: 'duty.conflict',
    pointer: '/duties',
    detail: `Whoever administers the lab signs no result, so "administer" does not go with ${signing.join(', ')}.`,
    action: 'Give them to two people.',
  });
}

/** Refuses a change after which nobody could give a duty or a passphrase any more. */
async function requireAdministrator(rows: Rows): Promise<void> {
  const people = await rows.find(tables.Person, { kind: 'person' });
  const able = await ableToSignIn(rows);
  const said = await rows.latestOf(
    tables.PersonVersion,
    people.filter(({ key }) => able.has(key)).map(({ id }) => id),
  );
  if ([...said.values()].some(({ content }) => content.duties.includes('administer'))) return;
  throw new Refusal({
    code: 'state.conflict',
    detail: 'After this nobody could administer the lab any more. Nothing was changed.',
    action: 'Give the duty to another person first.',
  });
}

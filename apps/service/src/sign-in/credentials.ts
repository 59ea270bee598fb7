import { Refusal } from '@breakbook/lab';
import { type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { hashPassphrase, isOutdated, isPassphrase } from './passphrase-hash.js';
import { triesOfSecondFactor, WrongTries } from './wrong-tries.js';

/** Whose passphrase it was. */
export interface KnownPerson {
  personId: string;
  person: string;
}

type Cause = tables.CredentialChange['cause'];

/** Who can sign in, and whether a passphrase is theirs. */
@Injectable()
export class Credentials {
  /** Compared with where nobody is called so, since an answer that comes sooner would say that. */
  readonly #nobody = hashPassphrase('nobody has this passphrase');

  constructor(
    private readonly dataSource: DataSource,
    private readonly wrongTries: WrongTries,
  ) {}

  /** The person of this name and passphrase; the same refusal, after the same work, for an unknown name. */
  async check(labId: string, person: string, passphrase: string): Promise<KnownPerson> {
    await this.wrongTries.count(labId, person);
    const [found] = await this.dataSource.query<{ id: string; hash: string }[]>(
      `select credential.id, credential.hash from person join credential using (lab_id, id)
       where person.lab_id = $1 and person.key = $2 and person.kind = 'person'`,
      [labId, person],
    );
    const right = await isPassphrase(found?.hash ?? (await this.#nobody), passphrase);
    if (!found || !right) throw wrong();
    await this.wrongTries.forget(labId, person);
    if (isOutdated(found.hash)) await this.#hashAnew(labId, found.id, found.hash, passphrase);
    return { personId: found.id, person };
  }

  /** Costs were raised since: nobody changed the passphrase, so nothing is said of it in the ledger. */
  async #hashAnew(labId: string, id: string, before: string, passphrase: string): Promise<void> {
    await this.dataSource.query('update credential set hash = $3 where lab_id = $1 and id = $2 and hash = $4', [
      labId,
      id,
      await hashPassphrase(passphrase),
      before,
    ]);
  }
}

function wrong(): Refusal {
  return new Refusal({
    code: 'auth.failed',
    detail: 'Name and passphrase do not belong together.',
    action: 'Check both and try again. Whoever has lost the passphrase asks an administrator of the lab for a new one.',
  });
}

/**
 * Gives somebody a passphrase within a change, ends every session they have, and lets them try again at once.
 * `temporary` ones open nothing but the way to an own one: what somebody else has seen signs nothing.
 */
export async function givePassphrase(
  rows: Rows,
  whose: { id: string; key: string },
  hash: string,
  { cause, temporary }: { cause: Exclude<Cause, 'closed'>; temporary: boolean },
): Promise<void> {
  await rows.manager.query(
    `insert into credential (lab_id, id, hash, temporary) values ($1, $2, $3, $4)
     on conflict (lab_id, id) do update set hash = excluded.hash, temporary = excluded.temporary`,
    [rows.labId, whose.id, hash, temporary],
  );
  await rows.manager.query('delete from wrong_try where lab_id = $1 and id in ($2, $3)', [
    rows.labId,
    whose.key,
    triesOfSecondFactor(whose.key),
  ]);
  await endSessionsOf(rows, whose.id);
  await rows.add(tables.CredentialChange, { whoseId: whose.id, cause });
}

/** Takes somebody's passphrase away: they cannot sign in any more, and their sessions end. */
export async function takePassphrase(rows: Rows, whoseId: string): Promise<void> {
  await rows.manager.query('delete from credential where lab_id = $1 and id = $2', [rows.labId, whoseId]);
  await rows.add(tables.CredentialChange, { whoseId, cause: 'closed' });
}

/** Ends every session of somebody within a change, such as one of their duties. */
export async function endSessionsOf(rows: Rows, personId: string): Promise<void> {
  await rows.manager.query('delete from session where lab_id = $1 and person_id = $2', [rows.labId, personId]);
}

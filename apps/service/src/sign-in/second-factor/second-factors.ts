import { randomBytes } from 'node:crypto';
import { Refusal } from '@breakbook/lab';
import { Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { endSessionsOf } from '../credentials.js';
import type { SignedInActor } from '../signed-in.decorator.js';
import { triesOfSecondFactor, WrongTries } from '../wrong-tries.js';
import { base32 } from './base32.js';
import { STEP_SECONDS, stepOfCode } from './one-time-code.js';
import { drawRecoveryCodes, firstRecoveryCodes, takeRecoveryCode } from './recovery-codes.js';
import { SealedSecrets } from './sealed-secrets.js';

/** As long as the hash that is made with it (RFC 4226, 4). */
const SECRET_BYTES = 20;

/** What somebody has beside the passphrase. */
export interface OwnSecondFactors {
  codeGenerator: boolean;
  recoveryCodes: number;
  passkeys: { id: string; name: string; addedAt: Date; usedAt: Date | null }[];
}

type Whose = Pick<SignedInActor, 'labId' | 'personId'>;

/** Code generators and recovery codes: having one, and giving a code of it. */
@Injectable()
export class SecondFactors {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: Records,
    private readonly sealed: SealedSecrets,
    private readonly wrongTries: WrongTries,
  ) {}

  async of({ labId, personId }: Whose): Promise<OwnSecondFactors> {
    const whose = [labId, personId];
    const [generators, [codes], passkeys] = await Promise.all([
      this.dataSource.query<unknown[]>('select from code_generator where lab_id = $1 and id = $2 and in_use', whose),
      this.dataSource.query<{ left: number }[]>(
        'select count(*)::integer as left from recovery_code where lab_id = $1 and person_id = $2',
        whose,
      ),
      this.dataSource.query<OwnSecondFactors['passkeys']>(
        `select id, name, added_at as "addedAt", used_at as "usedAt" from passkey
         where lab_id = $1 and person_id = $2 order by id`,
        whose,
      ),
    ]);
    return { codeGenerator: generators.length > 0, recoveryCodes: codes?.left ?? 0, passkeys };
  }

  /**
   * Draws the secret of a code generator, to be read by the app that makes the codes. It is in use once a code of it was
   * given: a secret that no app has must lock nobody out.
   */
  async draw(by: SignedInActor, lab: string): Promise<{ secret: string; address: string }> {
    const secret = randomBytes(SECRET_BYTES);
    const drawn = await this.dataSource.query<unknown[]>(
      `insert into code_generator (lab_id, id, sealed, in_use) values ($1, $2, $3, false)
       on conflict (lab_id, id) do update set sealed = excluded.sealed, last_step = 0
       where not code_generator.in_use
       returning id`,
      [by.labId, by.personId, this.sealed.seal(secret, by.personId)],
    );
    if (drawn.length === 0)
      throw new Refusal({
        code: 'state.conflict',
        detail: 'You have a code generator in use already.',
        action: 'Remove it first. A passkey or a recovery code stands in for it meanwhile.',
      });
    return { secret: base32(secret), address: keyAddress(base32(secret), by.person, lab) };
  }

  /** Takes the drawn secret into use, with the first code of it. Answers recovery codes where there were none. */
  async takeIntoUse(by: SignedInActor, code: string): Promise<string[]> {
    await this.wrongTries.count(by.labId, triesOfSecondFactor(by.person));
    const codes = await this.records.change(by, 'code generator added', async (rows) => {
      if (!(await this.#takes(rows.manager, by, code, false))) throw wrongCode();
      await rows.manager.query('update code_generator set in_use = true where lab_id = $1 and id = $2', [
        by.labId,
        by.personId,
      ]);
      await rows.add(tables.CredentialChange, { whoseId: by.personId, cause: 'code generator added' });
      return firstRecoveryCodes(rows);
    });
    await this.wrongTries.forget(by.labId, triesOfSecondFactor(by.person));
    return codes;
  }

  /** Refuses a code that is not theirs: one of the generator, or one written down. None is taken twice. */
  async check(by: SignedInActor, code: string): Promise<void> {
    await this.wrongTries.count(by.labId, triesOfSecondFactor(by.person));
    const typed = code.replaceAll(/[\s-]/g, '');
    if (!/^\d+$/.test(typed)) await this.#takeRecoveryCode(by, typed);
    else if (!(await this.#takes(this.dataSource.manager, by, typed, true))) throw wrongCode();
    await this.wrongTries.forget(by.labId, triesOfSecondFactor(by.person));
  }

  newRecoveryCodes(by: SignedInActor): Promise<string[]> {
    return this.records.change(by, 'recovery codes drawn', drawRecoveryCodes);
  }

  async removeCodeGenerator(by: SignedInActor): Promise<void> {
    await this.records.change(by, 'code generator removed', async (rows) => {
      const [, removed] = await rows.manager.query<[unknown[], number]>(
        'delete from code_generator where lab_id = $1 and id = $2 and in_use',
        [by.labId, by.personId],
      );
      if (removed === 0) throw new Refusal({ code: 'state.conflict', detail: 'You have no code generator in use.' });
      await rows.add(tables.CredentialChange, { whoseId: by.personId, cause: 'code generator removed' });
    });
  }

  /** Of two who give one code at once, the update lets one have it. */
  async #takes(manager: Rows['manager'], { labId, personId }: Whose, typed: string, inUse: boolean): Promise<boolean> {
    const [found] = await manager.query<{ sealed: string }[]>(
      'select sealed from code_generator where lab_id = $1 and id = $2 and in_use = $3',
      [labId, personId, inUse],
    );
    const secret = found && this.sealed.open(found.sealed, personId);
    const step = secret && stepOfCode(secret, typed, Date.now());
    if (step === undefined) return false;
    const [, taken] = await manager.query<[unknown[], number]>(
      'update code_generator set last_step = $3 where lab_id = $1 and id = $2 and last_step < $3',
      [labId, personId, step],
    );
    return taken === 1;
  }

  async #takeRecoveryCode(by: SignedInActor, typed: string): Promise<void> {
    await this.records.change(by, 'recovery code used', async (rows) => {
      if (!(await takeRecoveryCode(rows, typed))) throw wrongCode();
    });
  }
}

/** Takes away everything somebody has beside the passphrase, within a change, and ends their sessions. */
export async function takeSecondFactors(rows: Rows, whose: { id: string; key: string }): Promise<void> {
  for (const [table, column] of [
    ['code_generator', 'id'],
    ['recovery_code', 'person_id'],
    ['passkey', 'person_id'],
  ])
    await rows.manager.query(`delete from ${table} where lab_id = $1 and ${column} = $2`, [rows.labId, whose.id]);
  await rows.manager.query('delete from wrong_try where lab_id = $1 and id = $2', [
    rows.labId,
    triesOfSecondFactor(whose.key),
  ]);
  await endSessionsOf(rows, whose.id);
  await rows.add(tables.CredentialChange, { whoseId: whose.id, cause: 'second factors taken away' });
}

/** The form in which apps that make codes read a secret, mostly as a picture: `otpauth://totp/Lab:person?secret=…`. */
function keyAddress(secret: string, person: string, lab: string): string {
  const label = `${encodeURIComponent(lab)}:${encodeURIComponent(person)}`;
  return `otpauth://totp/${label}?secret=${secret}&issuer=${encodeURIComponent(lab)}&period=${STEP_SECONDS}`;
}

function wrongCode(): Refusal {
  return new Refusal({
    code: 'auth.failed',
    detail: 'This code is not right, or was used already: each is taken once.',
    action: 'Wait for the next code and type that, or type one of your recovery codes.',
  });
}

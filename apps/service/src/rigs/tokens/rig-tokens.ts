import { Refusal } from '@breakbook/lab';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { digestOfSecret } from '../../sign-in/drawn-secret.js';
import type { SignedInActor } from '../../sign-in/signed-in.decorator.js';

interface FoundToken {
  labId: string;
  personId: string;
  person: string;
  rigId: string;
  rig: string;
  revoked: boolean;
  expired: boolean;
}

/** Which rig calls by this token? */
@Injectable()
export class RigTokens {
  constructor(private readonly dataSource: DataSource) {}

  /** The rig's computer, which has the one duty to send. Looked up with every call, so that an end acts at once. */
  async actorOf(token: string): Promise<SignedInActor> {
    const [found] = await this.dataSource.query<FoundToken[]>(
      `select token.lab_id as "labId", token.program_id as "personId", program.key as person,
         token.rig_id as "rigId", rig.key as rig,
         revocation.id is not null as revoked, token.expires_at <= now() as expired
       from rig_token token
       join person program on program.lab_id = token.lab_id and program.id = token.program_id
       join rig on rig.lab_id = token.lab_id and rig.id = token.rig_id
       left join rig_token_revocation revocation
         on revocation.lab_id = token.lab_id and revocation.rig_token_id = token.id
       where token.sha256 = $1`,
      [digestOfSecret(token)],
    );
    if (!found)
      throw new Refusal({
        code: 'auth.required',
        detail: 'This token is none of this service.',
        action: 'Check that it was copied whole, or have an administrator make a new one for the rig.',
      });
    if (found.revoked)
      throw new Refusal({
        code: 'token.revoked',
        detail: `This token of rig ${found.rig} was revoked.`,
        action: 'Have an administrator make a new one for the rig.',
      });
    if (found.expired)
      throw new Refusal({
        code: 'token.expired',
        detail: `This token of rig ${found.rig} has come to its end.`,
        action: 'Have an administrator make a new one for the rig.',
      });
    const { labId, personId, person, rigId, rig } = found;
    return { labId, personId, person, duties: ['send'], rig: { id: rigId, rig } };
  }
}

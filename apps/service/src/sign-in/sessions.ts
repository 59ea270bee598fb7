import { type Duty } from '@breakbook/lab';
import { newId } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { digestOfSecret, drawSecret } from './drawn-secret.js';

/** A signed-in person, as they are at this moment: a duty lost is lost with the next request. */
export interface Session {
  id: string;
  labId: string;
  personId: string;
  person: string;
  duties: Duty[];
  /** The passphrase was given by somebody else; an own one comes first. */
  temporary: boolean;
  /** The passphrase was asked for again within the last minutes. */
  fresh: boolean;
}

const IDLE = '30 minutes';
const WHOLE = '12 hours';
const FRESH = '5 minutes';
/** Use is noted once a minute: a session ends up to a minute before its half hour, and never after. */
const NOTED = '1 minute';

/** Sessions in the database, so that they outlive a restart and end everywhere at once. Its clock alone counts. */
@Injectable()
export class Sessions {
  constructor(private readonly dataSource: DataSource) {}

  /** Begins a session, the passphrase just given, and answers the secret for its cookie, which is kept nowhere. */
  async begin(labId: string, personId: string): Promise<string> {
    const secret = drawSecret();
    await this.dataSource.query(
      `delete from session where seen_at <= now() - $1::interval or began_at <= now() - $2::interval`,
      [IDLE, WHOLE],
    );
    await this.dataSource.query(
      `insert into session (lab_id, id, person_id, sha256, began_at, seen_at, confirmed_at)
       values ($1, $2, $3, $4, now(), now(), now())`,
      [labId, newId(), personId, digestOfSecret(secret)],
    );
    return secret;
  }

  /** The session of a cookie's secret, unless it has ended. */
  async find(secret: string): Promise<Session | undefined> {
    const [found] = await this.dataSource.query<(Session & { unnoted: boolean })[]>(
      `select session.id, session.lab_id as "labId", session.person_id as "personId", person.key as person,
         said.content -> 'duties' as duties, credential.temporary,
         coalesce(session.confirmed_at > now() - $4::interval, false) as fresh,
         session.seen_at <= now() - $5::interval as unnoted
       from session
       join person on person.lab_id = session.lab_id and person.id = session.person_id
       join credential on credential.lab_id = session.lab_id and credential.id = session.person_id
       cross join lateral (
         select content from person_version
         where lab_id = session.lab_id and record_id = session.person_id order by version desc limit 1
       ) said
       where session.sha256 = $1 and session.seen_at > now() - $2::interval and session.began_at > now() - $3::interval`,
      [digestOfSecret(secret), IDLE, WHOLE, FRESH, NOTED],
    );
    if (!found) return undefined;
    const { unnoted, ...session } = found;
    if (unnoted)
      await this.dataSource.query('update session set seen_at = now() where lab_id = $1 and id = $2', [
        session.labId,
        session.id,
      ]);
    return session;
  }

  /** Has the session of this secret not ended? Asking is no use of it. */
  async goesOn(secret: string): Promise<boolean> {
    const found = await this.dataSource.query<unknown[]>(
      'select from session where sha256 = $1 and seen_at > now() - $2::interval and began_at > now() - $3::interval',
      [digestOfSecret(secret), IDLE, WHOLE],
    );
    return found.length > 0;
  }

  /** The passphrase was given again in this session. */
  async confirm({ labId, id }: Pick<Session, 'labId' | 'id'>): Promise<void> {
    await this.dataSource.query('update session set confirmed_at = now() where lab_id = $1 and id = $2', [labId, id]);
  }

  /** Ends the session of a cookie's secret; one that has ended already is ended. */
  async end(secret: string): Promise<void> {
    await this.dataSource.query('delete from session where sha256 = $1', [digestOfSecret(secret)]);
  }
}

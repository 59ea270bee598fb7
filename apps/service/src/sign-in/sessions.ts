import type { Duty } from '@breakbook/lab';
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
  /** Does this person have a second factor, and was it given in this session? */
  second: 'none' | 'owed' | 'given';
  /** It was given within the last minutes. */
  secondFresh: boolean;
  /** The lab asks everybody for one, whatever their duties. */
  askedOfEveryone: boolean;
}

/** A session as its owner sees it among their others. */
export interface OwnSession {
  id: string;
  beganAt: Date;
  seenAt: Date;
  device: string;
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

  /**
   * Begins a session and answers the secret for its cookie, which is kept nowhere. `confirmed`: the passphrase was just
   * given, and not the word of somebody else for it.
   */
  async begin(labId: string, personId: string, device: string, confirmed = true): Promise<string> {
    const secret = drawSecret();
    await this.dataSource.query(
      `delete from session where seen_at <= now() - $1::interval or began_at <= now() - $2::interval`,
      [IDLE, WHOLE],
    );
    await this.dataSource.query(
      `insert into session (lab_id, id, person_id, sha256, device, began_at, seen_at, confirmed_at)
       values ($1, $2, $3, $4, $5, now(), now(), case when $6 then now() end)`,
      [labId, newId(), personId, digestOfSecret(secret), device, confirmed],
    );
    return secret;
  }

  /** The session of a cookie's secret, unless it has ended. */
  async find(secret: string): Promise<Session | undefined> {
    const [found] = await this.dataSource.query<(Session & { unnoted: boolean })[]>(
      `select session.id, session.lab_id as "labId", session.person_id as "personId", person.key as person,
         said.content -> 'duties' as duties, credential.temporary,
         coalesce(session.confirmed_at > now() - $4::interval, false) as fresh,
         case when session.second_at is not null then 'given'
           when exists (select from code_generator made
                        where made.lab_id = session.lab_id and made.id = session.person_id and made.in_use)
             or exists (select from passkey
                        where passkey.lab_id = session.lab_id and passkey.person_id = session.person_id)
           then 'owed' else 'none' end as second,
         coalesce(session.second_at > now() - $4::interval, false) as "secondFresh",
         coalesce(lab.content ->> 'secondFactor' = 'everyone', false) as "askedOfEveryone",
         session.seen_at <= now() - $5::interval as unnoted
       from session
       join person on person.lab_id = session.lab_id and person.id = session.person_id
       join credential on credential.lab_id = session.lab_id and credential.id = session.person_id
       cross join lateral (
         select content from person_version
         where lab_id = session.lab_id and record_id = session.person_id order by version desc limit 1
       ) said
       cross join lateral (
         select content from lab_version
         where lab_id = session.lab_id and record_id = session.lab_id order by version desc limit 1
       ) lab
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

  /**
   * The passphrase or the second factor was given in this session, which opens more than before: it goes on under a new
   * secret, so that whoever has seen the one before gains nothing.
   */
  async confirm({ labId, id }: Pick<Session, 'labId' | 'id'>, what: 'passphrase' | 'second factor'): Promise<string> {
    const secret = drawSecret();
    await this.dataSource.query(
      `update session set sha256 = $3, ${what === 'passphrase' ? 'confirmed_at' : 'second_at'} = now()
       where lab_id = $1 and id = $2`,
      [labId, id, digestOfSecret(secret)],
    );
    return secret;
  }

  /** The sessions of somebody that go on, the latest first. */
  list(labId: string, personId: string): Promise<OwnSession[]> {
    return this.dataSource.query<OwnSession[]>(
      `select id, began_at as "beganAt", seen_at as "seenAt", device from session
       where lab_id = $1 and person_id = $2 and seen_at > now() - $3::interval and began_at > now() - $4::interval
       order by began_at desc, id desc`,
      [labId, personId, IDLE, WHOLE],
    );
  }

  /** Ends one session of somebody, or all but one. Was there any? */
  async endOwn(labId: string, personId: string, which: { only: string } | { allBut: string }): Promise<boolean> {
    const [, ended] = await this.dataSource.query<[unknown[], number]>(
      `delete from session where lab_id = $1 and person_id = $2 and (id::text = $3) = $4`,
      'only' in which ? [labId, personId, which.only, true] : [labId, personId, which.allBut, false],
    );
    return ended > 0;
  }

  /** Ends the session of a cookie's secret; one that has ended already is ended. */
  async end(secret: string): Promise<void> {
    await this.dataSource.query('delete from session where sha256 = $1', [digestOfSecret(secret)]);
  }
}

import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { RetryLater } from '../http/retry-later.js';

/** Wrong tries in a row that cost nothing but themselves: fingers slip. */
const FREE = 5;
/** SP 800-63B-4, 3.2.2: no more than a hundred failed tries in a row for one account. */
const MOST = 100;
/** Whoever owns the passphrase waits no longer than this. */
const LONGEST_WAIT = 15 * 60;

/**
 * Of tries made at once one may be counted first whose moment is the later one. So much earlier, in seconds, the next is
 * open to all of them.
 */
const LONGEST_APART = 60;

/** Wrong codes are counted apart from wrong passphrases; no name of a person has blanks. */
export function triesOfSecondFactor(person: string): string {
  return `second factor of ${person}`;
}

/**
 * Wrong passphrases in a row, by the name that was typed: from the sixth on each waits twice as long as the one before,
 * from two seconds to a quarter of an hour, and after a hundred only a new passphrase helps. A name that belongs to
 * nobody is counted alike, so that the count tells nobody who is there.
 */
@Injectable()
export class WrongTries {
  constructor(private readonly dataSource: DataSource) {}

  /**
   * Counts a try before it is made. Two hundred tries at once are two hundred tries: were they counted when they have
   * failed, all would be made before the first is counted.
   */
  async count(labId: string, name: string): Promise<void> {
    const counted = await this.dataSource.query<unknown[]>(
      `insert into wrong_try (lab_id, id, tries, next_at) values ($1, $2, 1, now() - make_interval(secs => $6))
       on conflict (lab_id, id) do update set
         tries = wrong_try.tries + 1,
         next_at = now() + make_interval(secs =>
           case when wrong_try.tries + 1 < $3 then -$6::integer else least($4, power(2, least(wrong_try.tries + 2 - $3, 10))) end)
       where wrong_try.next_at <= now() and wrong_try.tries < $5
       returning tries`,
      [labId, name, FREE, LONGEST_WAIT, MOST, LONGEST_APART],
    );
    if (counted.length > 0) return;

    const [found] = await this.dataSource.query<{ tries: number; wait: number }[]>(
      `select tries, ceil(extract(epoch from next_at - now()))::integer as wait
       from wrong_try where lab_id = $1 and id = $2`,
      [labId, name],
    );
    if (found && found.tries >= MOST)
      throw new RetryLater(LONGEST_WAIT, {
        code: 'rate.limited',
        detail: `There were ${MOST} wrong tries in a row for this name, so no further one is made.`,
        action: 'Have an administrator of the lab give a new passphrase.',
      });
    const wait = Math.max(1, found?.wait ?? 1);
    throw new RetryLater(wait, {
      code: 'rate.limited',
      detail: `There were several wrong tries in a row for this name. The next is possible in ${wait} s.`,
      action: 'Wait, then try once. Whoever has lost the passphrase asks an administrator of the lab for a new one.',
    });
  }

  /**
   * The right passphrase came: what was counted before does not matter any more. Names that belong to nobody are
   * forgotten with it after a month, for there is no end of them.
   */
  async forget(labId: string, name: string): Promise<void> {
    await this.dataSource.query(
      `delete from wrong_try where lab_id = $1 and (id = $2 or next_at < now() - interval '30 days'
         and not exists (select from person where lab_id = $1 and key = wrong_try.id))`,
      [labId, name],
    );
  }
}

import type { Actor } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { RetryLater } from '../http/retry-later.js';

/** How much one caller, a person or the token of a rig, may have kept or made within an hour. */
export interface CallerQuotas {
  /** Of run files, read or unread, of attached files and of tables of old results. */
  bytes: number;
  /** Documents and packages. */
  exports: number;
  runs: number;
}

export const USUAL_QUOTAS: CallerQuotas = { bytes: 10 * 1024 ** 3, exports: 50, runs: 1000 };

/** What `ServiceOptions` say of them. */
export const QUOTAS = Symbol('quotas of a caller');

const HOUR = 3600;

/** Always in this order, so that two changes of one caller never wait crosswise. */
const KINDS = ['bytes', 'exports', 'runs'] as const;
type Kind = (typeof KINDS)[number];
export type Use = Partial<CallerQuotas>;

const WHAT: Record<Kind, string> = {
  bytes: 'bytes kept',
  exports: 'documents and packages made',
  runs: 'runs recorded',
};

const ACTIONS: Record<Kind, string> = {
  bytes: 'Keep the file, wait as long as Retry-After says, then send it again.',
  exports: 'Fetch one that was made already, or wait as long as Retry-After says.',
  runs: 'Keep the files, wait as long as Retry-After says, then send the run again.',
};

/** The hour of a row has ended. */
const OVER = `caller_use.since <= now() - make_interval(secs => ${HOUR})`;

/**
 * What each caller has used within an hour, in the database: a start forgets none of it, and several services count
 * together. The hour begins with a first use; one that ends is followed by a fresh one with the next use.
 */
@Injectable()
export class Quotas {
  constructor(
    private readonly dataSource: DataSource,
    @Inject(QUOTAS) private readonly quotas: CallerQuotas,
  ) {}

  /** Refuses what would go beyond the figures, before any work is done for it. */
  async requireLeft(by: Actor, use: Use): Promise<void> {
    for (const kind of KINDS) {
      const amount = use[kind] ?? 0;
      if (amount > 0 && (await usedBy(this.dataSource.manager, by, kind)).used + amount > this.quotas[kind])
        await this.#refuse(this.dataSource.manager, by, kind);
    }
  }

  /**
   * Counts a use in the change or transaction that makes it, so that what comes to nothing counts for nothing; refuses
   * it where others of the same moment were first. Call it last: other changes of the same caller wait for this one.
   */
  async take(manager: EntityManager, by: Actor, use: Use): Promise<void> {
    for (const kind of KINDS) {
      const amount = use[kind] ?? 0;
      if (amount === 0) continue;
      const taken =
        amount > this.quotas[kind]
          ? []
          : await manager.query<unknown[]>(
              `insert into caller_use (lab_id, id, kind, used, since) values ($1, $2, $3, $4::bigint, now())
               on conflict (lab_id, id, kind) do update set
                 used = case when ${OVER} then $4::bigint else caller_use.used + $4::bigint end,
                 since = case when ${OVER} then now() else caller_use.since end
               where ${OVER} or caller_use.used + $4::bigint <= $5::bigint
               returning used`,
              [by.labId, by.personId, kind, amount, this.quotas[kind]],
            );
      if (taken.length === 0) await this.#refuse(manager, by, kind);
    }
  }

  async #refuse(manager: EntityManager, by: Actor, kind: Kind): Promise<never> {
    const { wait } = await usedBy(manager, by, kind);
    throw new RetryLater(Math.max(1, wait), {
      code: 'rate.limited',
      detail: `One caller may have ${this.quotas[kind]} ${WHAT[kind]} within an hour, and this would be more. Nothing was kept.`,
      action: ACTIONS[kind],
    });
  }
}

/** What was used in the hour that goes on, and in how many seconds it ends. */
async function usedBy(
  manager: EntityManager,
  { labId, personId }: Actor,
  kind: Kind,
): Promise<{ used: number; wait: number }> {
  const [found] = await manager.query<{ used: string; wait: number }[]>(
    `select used, ceil(extract(epoch from since - now()) + ${HOUR})::integer as wait
     from caller_use where lab_id = $1 and id = $2 and kind = $3 and not ${OVER}`,
    [labId, personId, kind],
  );
  return found ? { used: Number(found.used), wait: found.wait } : { used: 0, wait: 1 };
}

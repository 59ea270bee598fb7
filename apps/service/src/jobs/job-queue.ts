import { Inject, Injectable } from '@nestjs/common';
import type pg from 'pg';
import PgBoss from 'pg-boss';
import { DataSource, type EntityManager } from 'typeorm';
import { DATABASE } from './job-bell.js';
import { bossConnection, JOB_SCHEMA, QUEUE } from './job-schema.js';

/** What the queue carries: which job, and no more. */
export interface Queued {
  labId: string;
  id: string;
}

/** A job that is active in the queue may just have been taken; only after this long, in s, is it looked after. */
const SETTLED = 2;

/** The queue in the database: what is to be done next, and what somebody is at. How a job ended is not its business. */
@Injectable()
export class JobQueue {
  readonly #boss: PgBoss;

  constructor(
    @Inject(DATABASE) database: pg.ClientConfig,
    private readonly dataSource: DataSource,
  ) {
    this.#boss = new PgBoss({
      ...bossConnection(database),
      max: 2,
      migrate: false,
      schedule: false,
      schema: JOB_SCHEMA,
    });
    this.#boss.on('error', () => {}); // The connection is away: what is tried next says so.
  }

  async start(): Promise<void> {
    await this.#boss.start();
  }

  async stop(): Promise<void> {
    await this.#boss.stop({ graceful: false });
  }

  /** Puts a job in line, as part of a transaction. */
  async send(manager: EntityManager, job: Queued): Promise<void> {
    const db = { executeSql: async (sql: string, values: unknown[]) => ({ rows: await manager.query(sql, values) }) };
    const id = await this.#boss.send(QUEUE, job, { id: job.id, db });
    if (id === null) throw new Error(`Job ${job.id} was not taken by the queue.`);
  }

  /** Takes the next job out of the line, if there is one. */
  async next(): Promise<Queued | undefined> {
    const [job] = await this.#boss.fetch<Queued>(QUEUE, { batchSize: 1 });
    return job?.data;
  }

  async done(id: string): Promise<void> {
    await this.#boss.complete(QUEUE, id);
  }

  /** Puts a job that was begun in line again; false where it was begun too often. */
  async again(id: string, because: string): Promise<boolean> {
    await this.#boss.fail(QUEUE, id, { because });
    const [row] = await this.#rows(`select state from ${JOB_SCHEMA}.job where name = $1 and id = $2`, [QUEUE, id]);
    return row?.state !== 'failed';
  }

  async isActive(id: string): Promise<boolean> {
    const [row] = await this.#rows(`select state from ${JOB_SCHEMA}.job where name = $1 and id = $2`, [QUEUE, id]);
    return row?.state === 'active';
  }

  /** Jobs that somebody took a while ago. */
  async taken(): Promise<Queued[]> {
    const rows = await this.#rows(
      `select data from ${JOB_SCHEMA}.job where name = $1 and state = 'active' and started_on < now() - make_interval(secs => $2)`,
      [QUEUE, SETTLED],
    );
    return rows.flatMap(({ data }) => data ?? []);
  }

  #rows(sql: string, parameters: unknown[]): Promise<{ state?: string; data?: Queued }[]> {
    return this.dataSource.query(sql, parameters);
  }
}

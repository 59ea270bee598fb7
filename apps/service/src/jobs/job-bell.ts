import { EventEmitter } from 'node:events';
import { Inject, Injectable } from '@nestjs/common';
import pg from 'pg';

/** By this the connection's settings are asked for. */
export const DATABASE = Symbol('settings of the database connection');

const CHANNEL = 'breakbook_jobs';

/** What is rung: ids and a word only, since a message holds 8,000 bytes and everybody listening gets it. */
export interface Ring {
  lab: string;
  job: string;
  said: 'asked' | 'progress' | 'ended';
  share?: number;
  at?: string;
}

/** A statement that rings when its transaction commits, and not before. */
export function ringing(ring: Ring): [sql: string, parameters: unknown[]] {
  return ['select pg_notify($1, $2)', [CHANNEL, JSON.stringify(ring)]];
}

interface Heard {
  ring: [Ring];
  /** The connection was away: what was rung meanwhile was not heard. */
  back: [];
}

/** A pause between attempts to come back, in ms. */
const PAUSE = 250;

/**
 * Hears at once what happens to jobs, in whatever process, on a connection of its own. The connection also holds, as
 * session locks, which jobs this process is at: when the process dies they are free, and the jobs can be begun again.
 */
@Injectable()
export class JobBell extends EventEmitter<Heard> {
  #client: pg.Client | undefined;
  #stopped = false;
  /** What was last said of each job that runs anywhere. */
  readonly #progress = new Map<string, { share: number; at: string }>();

  constructor(@Inject(DATABASE) private readonly database: pg.ClientConfig) {
    super({ captureRejections: false });
    this.setMaxListeners(0); // One for each browser that looks on.
  }

  async start(): Promise<void> {
    this.#client = await this.#connected();
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    const client = this.#client;
    this.#client = undefined;
    await client?.end().catch(() => {});
  }

  /** Is the connection there? */
  get hears(): boolean {
    return this.#client !== undefined;
  }

  progressOf(job: string): { share: number; at: string } | undefined {
    return this.#progress.get(job);
  }

  /** Rings without a transaction, for what is of no account when it is lost. */
  async ring(ring: Ring): Promise<void> {
    await this.#client?.query(...ringing(ring)).catch(() => {});
  }

  /** Takes hold of a job, unless another process has it. */
  async hold(job: string): Promise<boolean> {
    const answer = await this.#client?.query<{ held: boolean }>(
      'select pg_try_advisory_lock(hashtextextended($1, 0)) as held',
      [`job ${job}`],
    );
    return answer?.rows[0]?.held ?? false;
  }

  async letGo(job: string): Promise<void> {
    // A connection that broke has let go already.
    await this.#client?.query('select pg_advisory_unlock(hashtextextended($1, 0))', [`job ${job}`]).catch(() => {});
  }

  async #connected(): Promise<pg.Client> {
    const client = new pg.Client({ ...this.database, application_name: 'breakbook bell' });
    client.on('error', () => {}); // Its end is told by 'end'.
    await client.connect();
    client.once('end', () => this.#comeBack());
    client.on('notification', ({ payload }) => this.#heard(JSON.parse(payload ?? '{}') as Ring));
    await client.query(`listen ${CHANNEL}`);
    return client;
  }

  #heard(ring: Ring): void {
    if (ring.said === 'progress') this.#progress.set(ring.job, { share: ring.share ?? 0, at: ring.at ?? '' });
    if (ring.said === 'ended') this.#progress.delete(ring.job);
    this.emit('ring', ring);
  }

  async #comeBack(): Promise<void> {
    this.#client = undefined;
    while (!this.#stopped) {
      await new Promise((resolve) => setTimeout(resolve, PAUSE));
      const client = await this.#connected().catch(() => undefined);
      if (!client) continue;
      if (this.#stopped) return void client.end();
      this.#client = client;
      this.emit('back');
      return;
    }
  }
}

import type pg from 'pg';
import type { DataSource, QueryRunner } from 'typeorm';
import { Lab } from '../entities/index.js';
import { refusalOf } from './conflicts.js';
import { commitWithEntry } from './ledger.js';
import { Reader } from './reader.js';
import { type Actor, Rows } from './rows.js';

/** What a change does. It has no effect outside its rows: where the change fails, none of it happened. */
export type Work<T> = (rows: Rows) => Promise<T>;

/** The lab's records: read through a `Reader`, changed through `change`, and in no other way. */
export class Records {
  constructor(private readonly dataSource: DataSource) {}

  /** The labs of this installation, the oldest first. */
  async labs(): Promise<{ id: string; key: string }[]> {
    const labs = await this.dataSource.manager.find(Lab, { order: { id: 'asc' } });
    return labs.map(({ id, key }) => ({ id, key }));
  }

  /** Reads a lab as it stands. */
  read(labId: string): Reader {
    return new Reader(this.dataSource.manager, labId);
  }

  /**
   * One change: one transaction, all of it or nothing, that ends with one ledger entry naming every row it added, who
   * did what, and why. A change that adds nothing is an error, for there is nothing to say of it.
   *
   * Files are read and judged before: while the entry is written, every other change of the lab waits.
   */
  async change<T>(by: Actor, action: string, work: Work<T>): Promise<T>;
  async change<T>(by: Actor, action: string, reason: string | undefined, work: Work<T>): Promise<T>;
  async change<T>(by: Actor, action: string, ...rest: [Work<T>] | [string | undefined, Work<T>]): Promise<T> {
    const [reason, work] = rest.length === 1 ? [undefined, rest[0]] : rest;
    const runner = this.dataSource.createQueryRunner();
    try {
      const rows = new Rows(runner.manager, by, await begin(runner), reason);
      const outcome = await work(rows);
      rows.end();
      if (rows.noted.length === 0) throw new Error(`The change "${action}" added no row, so it leaves no entry.`);
      await commitWithEntry(rows, action);
      return outcome;
    } catch (error) {
      // Where the connection is gone, so is the transaction.
      await runner.query('rollback').catch(() => {});
      throw refusalOf(error) ?? error;
    } finally {
      await runner.release();
    }
  }
}

/** Begins a transaction and answers its instant: one message to the database, which TypeORM would make two of. */
async function begin(runner: QueryRunner): Promise<Date> {
  const client: pg.ClientBase = await runner.connect();
  const answers = await client.query("begin; select date_trunc('milliseconds', now()) as at");
  const [, { rows }] = answers as unknown as [pg.QueryResult, pg.QueryResult<{ at: Date }>];
  if (rows[0] === undefined) throw new Error('The database did not say what time it is.');
  return rows[0].at;
}

import { SERVICE_ROLE } from '@breakbook/records';
import pg from 'pg';
import PgBoss from 'pg-boss';

/** Of the queue's own tables. */
export const JOB_SCHEMA = 'jobs';
/** One queue for all kinds of work, done in the order asked for. */
export const QUEUE = 'work';

/** A job whose process dies while at it is begun again so many times. */
const RETRIES = 5;
/** Longest that one job may take, in seconds. */
const LONGEST = 3600;

/**
 * Makes the queue's tables, or brings them up to date. They are made by the owner of the database: the service itself
 * owns nothing, and of these tables it may read and write the rows only.
 */
export async function prepareJobs(owner: pg.ClientConfig): Promise<void> {
  const boss = new PgBoss({ ...bossConnection(owner), max: 1, supervise: false, schedule: false, schema: JOB_SCHEMA });
  const faults: unknown[] = [];
  boss.on('error', (error) => faults.push(error));
  await boss.start();
  try {
    await boss.createQueue(QUEUE, {
      name: QUEUE,
      policy: 'standard',
      retryLimit: RETRIES,
      retryDelay: 1,
      retryBackoff: true,
      expireInSeconds: LONGEST,
    });
  } finally {
    await boss.stop({ graceful: false });
  }
  if (faults.length > 0) throw faults[0];
  const client = new pg.Client(owner);
  client.on('error', () => {}); // A connection cut off shows in the next query; unheard it would end the process.
  await client.connect();
  try {
    await client.query(`grant usage on schema ${JOB_SCHEMA} to ${SERVICE_ROLE}`);
    await client.query(`grant select, insert, update, delete on all tables in schema ${JOB_SCHEMA} to ${SERVICE_ROLE}`);
  } finally {
    await client.end();
  }
}

/** The same connection in the words of the queue's library. */
export function bossConnection(connection: pg.ClientConfig): PgBoss.DatabaseOptions {
  return { ...(connection as PgBoss.DatabaseOptions), application_name: 'breakbook jobs' };
}

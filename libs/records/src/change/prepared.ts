import type pg from 'pg';
import { type EntityManager, QueryFailedError, QueryRunnerAlreadyReleasedError } from 'typeorm';

/** The names under which connections keep the statements they have been asked before. */
const known = new Map<string, string>();

/**
 * Asks a statement that comes again and again: each connection of the database reads it once. It is sent at once, also
 * behind one that has not been answered yet.
 */
export async function prepared<T extends pg.QueryResultRow>(
  client: pg.ClientBase,
  text: string,
  values: unknown[],
): Promise<T[]> {
  const name = known.get(text) ?? `statement ${known.size + 1}`;
  known.set(text, name);
  try {
    return (await client.query<T>({ name, text, values })).rows;
  } catch (error) {
    throw new QueryFailedError(text, values, error as Error);
  }
}

/** The connection on which a change is made; once it was given back, it belongs to somebody else's. */
export async function connectionOf({ queryRunner }: EntityManager): Promise<pg.ClientBase> {
  const client: pg.ClientBase | undefined = await queryRunner?.connect();
  if (client === undefined || queryRunner?.isReleased) throw new QueryRunnerAlreadyReleasedError();
  return client;
}

import type pg from 'pg';
import {
  type EntityManager,
  type EntityMetadata,
  type ObjectLiteral,
  QueryFailedError,
  QueryRunnerAlreadyReleasedError,
} from 'typeorm';

/**
 * The statement that adds a row and answers it as it is stored, with its parameters. TypeORM's own builder works it out
 * anew each time, which takes about as long as the database takes to add the row.
 *
 * A short number is taken by the statement itself, so that it is held no longer than it must be.
 */
export function insertOf({ columns, tableName, dataSource }: EntityMetadata, row: ObjectLiteral): [string, unknown[]] {
  const names: string[] = [];
  const places: string[] = [];
  const values: unknown[] = [];
  for (const column of columns) {
    if (column.propertyName === 'number') {
      places.push(`next_number($${values.push(row.labId)}, '${tableName}')`);
    } else {
      const value: unknown = dataSource.driver.preparePersistentValue(column.getEntityValue(row), column);
      if (value === undefined) continue;
      places.push(`$${values.push(value)}`);
    }
    names.push(`"${column.databaseName}"`);
  }
  return [`insert into "${tableName}" (${names}) values (${places}) returning *`, values];
}

/** The names under which connections keep the statements they have been asked before. */
const known = new Map<string, string>();

/** Asks a statement that comes again and again: each connection of the database reads it once. */
export async function prepared<T extends pg.QueryResultRow>(
  { queryRunner }: EntityManager,
  text: string,
  values: unknown[],
): Promise<T[]> {
  const name = known.get(text) ?? `statement ${known.size + 1}`;
  known.set(text, name);
  const client: pg.ClientBase | undefined = await queryRunner?.connect();
  // A connection given back belongs to somebody else's change.
  if (client === undefined || queryRunner?.isReleased) throw new QueryRunnerAlreadyReleasedError();
  try {
    return (await client.query<T>({ name, text, values })).rows;
  } catch (error) {
    throw new QueryFailedError(text, values, error as Error);
  }
}

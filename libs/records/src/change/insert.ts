import type { EntityMetadata, ObjectLiteral } from 'typeorm';

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

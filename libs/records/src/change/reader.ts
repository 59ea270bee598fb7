import { Key, Refusal, shown } from '@breakbook/lab';
import { type EntityManager, type FindOptionsOrder, type FindOptionsWhere, In, LessThan, MoreThan } from 'typeorm';
import { validate } from 'uuid';
import type { Noun, Row, Version } from '../entities/row.js';

/** A table, by its entity. */
export type Table<T> = new () => T;

/** A piece of a list: so many rows in the order of one column, after a place in it. */
export interface Page<T> {
  by: keyof T & string;
  descending?: boolean;
  /** The value of that column in the last row of the piece before. */
  after?: number;
  limit: number;
}

/**
 * Reads the rows of one lab, and of no other. Every look-up needs all of its keys: TypeORM takes a missing one for
 * "any" and answers with the first row there is, which is somebody else's.
 */
export class Reader {
  constructor(
    readonly manager: EntityManager,
    readonly labId: string,
  ) {}

  /** The row of this id; refused where there is none, or the id is none. */
  async one<T extends Row>(table: Table<T>, id: string): Promise<T> {
    const found = validate(id) ? await this.maybe(table, { id } as FindOptionsWhere<T>) : undefined;
    return found ?? missing(table, id);
  }

  /** The thing the lab calls so. */
  async named<T extends Noun>(table: Table<T>, key: string): Promise<T> {
    // What can be no key is not asked for: PostgreSQL refuses some text, and the answer must be the same.
    const found = Key.safeParse(key).success ? await this.maybe(table, { key } as FindOptionsWhere<T>) : undefined;
    return found ?? missing(table, key);
  }

  /** The one row that fits, or undefined; an error where several do. */
  async maybe<T extends Row>(table: Table<T>, where: FindOptionsWhere<T>): Promise<T | undefined> {
    const rows = await this.manager.find(table, { where: this.#within(table, where), take: 2 });
    if (rows.length > 1)
      throw new Error(`Several rows of ${table.name} fit ${JSON.stringify(where)}; one was expected.`);
    return rows[0];
  }

  /** All rows that fit, in the order asked for, or else that in which they were added. */
  find<T extends Row>(table: Table<T>, where: FindOptionsWhere<T>, order?: FindOptionsOrder<T>): Promise<T[]> {
    const added = { id: 'asc' } as FindOptionsOrder<T>;
    return this.manager.find(table, { where: this.#within(table, where), order: order ?? added });
  }

  /** A piece of the rows that fit, and whether more follow. By a short number or a version, so none is ever missed. */
  async page<T extends Row>(
    table: Table<T>,
    where: FindOptionsWhere<T>,
    { by, descending = false, after, limit }: Page<T>,
  ): Promise<{ rows: T[]; more: boolean }> {
    const place = after === undefined ? {} : { [by]: descending ? LessThan(after) : MoreThan(after) };
    const rows = await this.manager.find(table, {
      where: { ...this.#within(table, where), ...place } as FindOptionsWhere<T>,
      order: { [by]: descending ? 'desc' : 'asc' } as FindOptionsOrder<T>,
      take: limit + 1,
    });
    return { rows: rows.slice(0, limit), more: rows.length > limit };
  }

  /** What is said of a record now: its highest version. */
  async latest<T extends Version>(table: Table<T>, recordId: string): Promise<T> {
    return (await this.latestOf(table, [recordId])).get(recordId) ?? missing(table, recordId);
  }

  /** The same for many records, by their ids; a record of which nothing is said is not among them. */
  async latestOf<T extends Version>(table: Table<T>, recordIds: string[]): Promise<Map<string, T>> {
    const where = { recordId: In(recordIds) } as FindOptionsWhere<T>;
    const versions = await this.find(table, where, { version: 'asc' } as FindOptionsOrder<T>);
    return new Map(versions.map((version) => [version.recordId, version]));
  }

  /** Everything that was ever said of a record, first version first. */
  history<T extends Version>(table: Table<T>, recordId: string): Promise<T[]> {
    return this.find(table, { recordId } as FindOptionsWhere<T>, { version: 'asc' } as FindOptionsOrder<T>);
  }

  #within<T>(table: Table<T>, where: FindOptionsWhere<T>): FindOptionsWhere<T> {
    for (const [key, value] of Object.entries(where)) {
      if (value === undefined || value === null) {
        throw new TypeError(`A look-up in ${table.name} needs a value for ${key}; got ${value}.`);
      }
    }
    return { ...where, labId: this.labId };
  }
}

function missing(table: Table<unknown>, wanted: string): never {
  const thing = table.name.replaceAll(/(?<=[a-z])[A-Z]/g, (letter) => ` ${letter}`).toLowerCase();
  throw new Refusal({
    code: 'request.not-found',
    detail: `There is no ${thing} "${shown(String(wanted))}" in this lab.`,
  });
}

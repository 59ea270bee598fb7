import type { Reader, Table } from '../change/reader.js';
import type { DriverRow } from '../change/row-digest.js';
import { EVIDENCE, Person } from '../entities/index.js';
import type { Row } from '../entities/row.js';

/** A row of evidence, as the database holds it. */
export interface StoredRow {
  table: string;
  row: DriverRow & { id: string };
}

/** A column of one table that names a row of another. */
interface Link {
  child: string;
  column: string;
  parent: string;
}

/** What belongs to the description of a thing, beside the versions of it. */
const DESCRIBED_BY: Record<string, string[]> = {
  plan_revision: ['plan_line'],
  plan_line: ['plan_line_limit'],
  rig: ['sensor_placement'],
  sensor: ['calibration'],
  old_table: ['old_table_withdrawal'],
};

/**
 * Every row of evidence that a thing and all that was recorded of it rest on: what belongs to it (the specimens of a lot,
 * their runs, what was measured, judged and decided of those), what that points at (methods, limits, rigs, the people who
 * acted), and of all of these every version. It follows the foreign keys of the database, so that a table which is added
 * later is followed too.
 */
export async function rowsItRestsOn<T extends Row>(
  reader: Reader,
  table: Table<T>,
  id: string,
  { also = [] }: { also?: { table: Table<Row>; id: string }[] } = {},
): Promise<StoredRow[]> {
  const found = new Found(reader, await linksBetween(reader));
  await found.add(found.nameOf(table), 'id', [id]);
  await found.whatBelongs();
  await found.add(found.nameOf(Person), 'lab_id', [reader.labId]);
  for (const one of also) await found.add(found.nameOf(one.table), 'id', [one.id]);
  await found.whatIsNamed();
  return found.rows();
}

class Found {
  readonly #byTable = new Map<string, Map<string, StoredRow>>();
  /** Rows whose links are still to be followed. */
  #open: StoredRow[] = [];

  constructor(
    private readonly reader: Reader,
    private readonly links: readonly Link[],
  ) {}

  nameOf(table: Table<unknown>): string {
    return this.reader.manager.dataSource.getMetadata(table).tableName;
  }

  rows(): StoredRow[] {
    return [...this.#byTable.values()].flatMap((rows) => [...rows.values()]);
  }

  async add(table: string, column: string, values: readonly string[]): Promise<void> {
    const known = this.#byTable.get(table) ?? new Map<string, StoredRow>();
    this.#byTable.set(table, known);
    const wanted = column === 'id' ? values.filter((id) => !known.has(id)) : values;
    if (wanted.length === 0) return;
    const rows = await this.reader.manager.query<StoredRow['row'][]>(
      `select * from "${table}" where lab_id = $1 and "${column}" = any($2) order by id`,
      [this.reader.labId, [...new Set(wanted)]],
    );
    for (const row of rows) {
      if (known.has(row.id)) continue;
      const one = { table, row };
      known.set(row.id, one);
      this.#open.push(one);
    }
  }

  /** Everything that points at what was found, and what points at that. */
  async whatBelongs(): Promise<void> {
    const all: StoredRow[] = [];
    for (;;) {
      const open = this.#taken();
      if (open.size === 0) break;
      for (const [table, rows] of open) {
        all.push(...rows);
        for (const { child, column } of this.links.filter(({ parent }) => parent === table))
          await this.add(
            child,
            column,
            rows.map(({ row }) => row.id),
          );
      }
    }
    this.#open = all;
  }

  /** Everything that what was found points at, with all versions and descriptions of that. */
  async whatIsNamed(): Promise<void> {
    for (;;) {
      const open = this.#taken();
      if (open.size === 0) return;
      for (const [table, rows] of open) {
        for (const { column, parent } of this.links.filter(({ child }) => child === table))
          await this.add(
            parent,
            'id',
            rows.map(({ row }) => row[column]).filter((id): id is string => typeof id === 'string'),
          );
        for (const { child, column } of this.links.filter((link) => link.parent === table && describes(link)))
          await this.add(
            child,
            column,
            rows.map(({ row }) => row.id),
          );
      }
    }
  }

  #taken(): Map<string, StoredRow[]> {
    const byTable = new Map<string, StoredRow[]>();
    for (const one of this.#open) byTable.set(one.table, [...(byTable.get(one.table) ?? []), one]);
    this.#open = [];
    return byTable;
  }
}

function describes({ child, column, parent }: Link): boolean {
  return column === 'record_id' || (DESCRIBED_BY[parent]?.includes(child) ?? false);
}

/** The foreign keys between tables of evidence; each carries the lab and one column more. */
async function linksBetween({ manager }: Reader): Promise<Link[]> {
  const evidence = EVIDENCE.map((table) => manager.dataSource.getMetadata(table).tableName);
  return manager.query<Link[]>(
    `select child.relname as child, own.attname as column, parent.relname as parent
     from pg_constraint
       join pg_class child on child.oid = conrelid
       join pg_class parent on parent.oid = confrelid
       join pg_attribute own on own.attrelid = conrelid and own.attnum = conkey[array_upper(conkey, 1)]
       join pg_attribute other on other.attrelid = confrelid and other.attnum = confkey[array_upper(confkey, 1)]
     where contype = 'f' and own.attname <> 'lab_id' and other.attname = 'id'
       and child.relname = any($1) and parent.relname = any($1)
     order by 1, 2, 3`,
    [evidence],
  );
}

import type { LedgerRow } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import type { EntityManager } from 'typeorm';
import { v7 } from 'uuid';
import type { Row, Version } from '../entities/row.js';
import { differences } from './differences.js';
import { insertOf } from './insert.js';
import { connectionOf, prepared } from './prepared.js';
import { Reader, type Table } from './reader.js';
import { type DriverRow, rowDigest } from './row-digest.js';

/** Who acts, in which lab. */
export interface Actor {
  labId: string;
  personId: string;
}

/** What a caller says of a new row; the rest is filled in. */
export type New<T extends Row> = Omit<T, 'labId' | 'id' | 'personId' | 'at' | 'number'> & { id?: string };
export type NewVersion<T extends Version> = Omit<New<T>, 'recordId' | 'version' | 'reason'>;

/** An id for a record that has no row of its own, such as a measurement. */
export function newId(): string {
  return v7();
}

/**
 * The rows that one change adds. Each is noted for the ledger entry that the change ends with, so that none can be
 * added without. It can be used until the change ends.
 */
export class Rows extends Reader {
  readonly noted: LedgerRow[] = [];
  #ended = false;

  constructor(
    manager: EntityManager,
    readonly by: Actor,
    /** The instant of the change, the same for all its rows. */
    readonly at: Date,
    readonly reason: string | undefined,
  ) {
    super(manager, by.labId);
  }

  /** Adds a row; a numbered one gets the next short number of its kind. */
  add<T extends Row>(table: Table<T>, values: New<T>): Promise<T> {
    return this.#insert(table, values);
  }

  /**
   * Adds the next version of what is said about a record. From the second on the change needs a reason.
   * `follows` is the version the caller has seen: where another has come since, the answer is `version.stale`.
   */
  async addVersion<T extends Version>(
    table: Table<T>,
    recordId: string,
    values: NewVersion<T>,
    follows?: number,
  ): Promise<T> {
    this.#requireOpen();
    await this.lock(table, recordId);
    const before = (await this.latestOf(table, [recordId])).get(recordId);
    if (follows !== undefined && follows !== (before?.version ?? 0)) {
      throw new Refusal({
        code: 'version.stale',
        detail: `Version ${follows} was changed here, but version ${before?.version ?? 0} is in force by now.`,
        action: 'Look at the version in force and make the change again, if it is still needed.',
      });
    }
    if (before && this.reason === undefined) {
      throw new Error(`A further version of ${table.name} needs a reason; give one to the change.`);
    }
    const version = (before?.version ?? 0) + 1;
    return this.#insert(table, { ...values, recordId, version, reason: this.reason ?? null }, before?.id);
  }

  /** Waits for every other change that holds this record, and keeps later ones waiting until this one ends. */
  async lock(table: Table<unknown>, id: string): Promise<void> {
    // Not a lock on the row, which asks for the right to update it.
    const name = `${this.labId} ${this.manager.dataSource.getMetadata(table).tableName} ${id}`;
    await this.manager.query('select pg_advisory_xact_lock(hashtextextended($1, 0))', [name]);
  }

  /** Keeps every other change of the lab waiting until this one ends: what is read from now on stays as it is. */
  async lockLedger(): Promise<void> {
    await this.manager.query('select hold_ledger($1)', [this.labId]);
  }

  /** The row of this id, held until the change ends. */
  async oneLocked<T extends Row>(table: Table<T>, id: string): Promise<T> {
    await this.lock(table, id);
    return this.one(table, id);
  }

  /** The change is over. */
  end(): void {
    this.#ended = true;
  }

  #requireOpen(): void {
    if (this.#ended)
      throw new Error('This change has ended; its rows can no longer be used. Was a promise not awaited?');
  }

  async #insert<T extends Row>(table: Table<T>, values: object, replacedId?: string): Promise<T> {
    this.#requireOpen();
    const common = { labId: this.labId, id: newId(), personId: this.by.personId, at: this.at };
    const row = Object.assign(new table(), common, values);
    const insert = insertOf(this.manager.dataSource.getMetadata(table), row);
    const [stored] = await prepared<DriverRow>(await connectionOf(this.manager), ...insert);
    if (stored === undefined) throw new Error(`No row came back from ${table.name}.`);
    await this.#note(table, stored, replacedId);
    return Object.assign(row, typeof stored.number === 'number' ? { number: stored.number } : {});
  }

  async #note(table: Table<Row>, stored: DriverRow, replacedId?: string): Promise<void> {
    const { tableName, tablePath } = this.manager.dataSource.getMetadata(table);
    const [before] = replacedId
      ? await this.manager.query<DriverRow[]>(`select * from "${tablePath}" where lab_id = $1 and id = $2`, [
          this.labId,
          replacedId,
        ])
      : [];
    const versioned =
      typeof stored.version === 'number' ? { record: String(stored.record_id), version: stored.version } : {};
    this.noted.push({
      table: tableName,
      id: String(stored.id),
      digest: rowDigest(stored),
      ...versioned,
      ...differences(before, stored),
    });
  }
}

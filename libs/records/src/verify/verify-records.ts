import { type ChainHead, checkLink, type LedgerEntry, type LedgerRow, MerkleTree } from '@breakbook/evidence';
import { Reader } from '../change/reader.js';
import { type DriverRow, rowDigest } from '../change/row-digest.js';
import { EVIDENCE, LedgerCheckpoint, RawBytes } from '../entities/index.js';
import { brokenCheckpoint, type KeptElsewhere, whyNotBeginning } from '../ledger/checkpoints.js';
import { EvidenceDamaged, type RawStore } from '../raw/raw-store.js';
import { damagedText } from '../withheld/withheld-text.js';

export interface RecordsHold {
  holds: true;
  entries: number;
  rows: number;
  /** Kept files, read from first to last byte. */
  files: number;
  /** Checkpoints of the ledger, its own and those that were kept elsewhere. */
  checkpoints: number;
  /** The last entry. Kept elsewhere, it shows a later verifier a tail cut off, or a ledger written anew. */
  head?: ChainHead;
}

/** The first thing found that is not as it was written. */
export interface RecordsBroken {
  holds: false;
  /** The entry that does not fit, or that names the row that does not. */
  sequence?: number;
  table?: string;
  id?: string;
  because: string;
}

export interface VerifyOptions {
  /** Checkpoints that the lab could not reach. */
  elsewhere?: readonly KeptElsewhere[];
  /** Entries and kept files that were looked at so far, and in all. */
  onProgress?: (done: number, of: number) => void;
}

const BATCH = 500;

/**
 * Is everything a lab recorded as it was written? Rebuilds it from the ground: the chain of the ledger, each row against
 * the digest its entry names it by, whether rows are there that no entry names, each kept byte, and whether the ledger
 * still begins as its checkpoints say, those that were kept elsewhere among them.
 */
export function verifyRecords(
  reader: Reader,
  store: RawStore,
  { elsewhere = [], onProgress = () => {} }: VerifyOptions = {},
): Promise<RecordsHold | RecordsBroken> {
  // One snapshot for all of it, so that changes made meanwhile are not taken for damage.
  return reader.manager.transaction('REPEATABLE READ', async (manager) => {
    const snapshot = new Reader(manager, reader.labId);
    const named = new Map<string, Set<string>>(EVIDENCE.map((table) => [tableName(snapshot, table), new Set()]));
    const tree = new MerkleTree();
    const steps = await countedSteps(snapshot, onProgress);
    const ledger = await verifyLedger(snapshot, named, { tree, steps });
    if (!ledger.holds) return ledger;
    const signed = await verifyCheckpoints(snapshot, tree, elsewhere);
    if (typeof signed !== 'number') return signed;
    const broken =
      (await findUnnamed(snapshot, named)) ??
      (await findDamagedText(snapshot)) ??
      (await findDamagedFile(snapshot, store, steps));
    if (broken) return broken;
    const count = (ids: Set<string> | undefined) => ids?.size ?? 0;
    const files = count(named.get(tableName(snapshot, RawBytes)));
    const rows = [...named.values()].reduce((total, ids) => total + count(ids), 0);
    return { ...ledger, rows, files, checkpoints: signed };
  });
}

interface StoredColumns {
  id: string;
  sequence: number;
  previous: string;
  at: Date;
  person_id: string;
  action: string;
  reason: string | null;
  text: string;
  hash: string;
}

async function verifyLedger(
  reader: Reader,
  named: Map<string, Set<string>>,
  { tree, steps }: { tree: MerkleTree; steps: () => void },
): Promise<Omit<RecordsHold, 'rows' | 'files' | 'checkpoints'> | RecordsBroken> {
  let head: ChainHead | undefined;
  for (;;) {
    const batch = await reader.manager.query<StoredColumns[]>(
      `select id, sequence, previous, at, person_id, action, reason, text, hash
       from ledger_entry where lab_id = $1 and sequence > $2 order by sequence limit ${BATCH}`,
      [reader.labId, head?.sequence ?? 0],
    );
    for (const stored of batch) {
      const expected = (head?.sequence ?? 0) + 1;
      if (stored.sequence !== expected)
        return { holds: false, sequence: expected, because: `entry ${expected} is missing` };
      const link = checkLink(head, stored);
      if ('fault' in link) return { holds: false, sequence: expected, because: `entry ${expected}: ${link.because}` };
      if (link.entry.lab !== reader.labId || !columnsSayTheSame(stored, link.entry)) {
        return {
          holds: false,
          sequence: expected,
          because: `the columns of entry ${expected} say other than its text`,
        };
      }
      const broken = await findAltered(reader, link.entry, named);
      if (broken) return broken;
      head = link.head;
      tree.append(head.hash);
      steps();
    }
    if (batch.length < BATCH) break;
  }
  const [last] = await reader.manager.query<{ sequence: number; hash: string }[]>(
    'select sequence, hash from ledger_head where lab_id = $1',
    [reader.labId],
  );
  if (last?.sequence !== head?.sequence || last?.hash !== head?.hash) {
    const sequence = (head?.sequence ?? 0) + 1;
    return {
      holds: false,
      sequence,
      because: `the ledger ends before entry ${sequence}, but ${last?.sequence} were written`,
    };
  }
  return head ? { holds: true, entries: head.sequence, head } : { holds: true, entries: 0 };
}

/** Tells of each entry and each kept file as one step of all of them. */
async function countedSteps(
  { manager, labId }: Reader,
  onProgress: NonNullable<VerifyOptions['onProgress']>,
): Promise<() => void> {
  const [{ of } = { of: 0 }] = await manager.query<{ of: number }[]>(
    `select (select count(*) from ledger_entry where lab_id = $1)::int
          + (select count(*) from raw_bytes where lab_id = $1)::int as of`,
    [labId],
  );
  let done = 0;
  return () => {
    done += 1;
    onProgress(done, of);
  };
}

/** How many checkpoints the ledger fits, or the first that it does not. */
async function verifyCheckpoints(
  reader: Reader,
  tree: MerkleTree,
  elsewhere: readonly KeptElsewhere[],
): Promise<number | RecordsBroken> {
  const { count, broken } = await brokenCheckpoint(reader, tree);
  const table = reader.manager.dataSource.getMetadata(LedgerCheckpoint).tableName;
  if (broken) return { holds: false, table, id: broken.id, because: `a checkpoint of the ledger: ${broken.because}` };
  for (const one of elsewhere) {
    const because = whyNotBeginning(reader.labId, tree, one);
    if (because) return { holds: false, because: `a checkpoint that was kept elsewhere: ${because}` };
  }
  return count + elsewhere.length;
}

function columnsSayTheSame(stored: StoredColumns, entry: LedgerEntry): boolean {
  return (
    stored.id === entry.id &&
    stored.previous === entry.previous &&
    stored.at.toISOString() === entry.at &&
    stored.person_id === entry.by &&
    stored.action === entry.action &&
    stored.reason === (entry.reason ?? null)
  );
}

/** The first text that only some may read which is not what was kept. */
async function findDamagedText(reader: Reader): Promise<RecordsBroken | undefined> {
  const damaged = await damagedText(reader);
  return (
    damaged && {
      holds: false,
      ...damaged,
      because: `the text that a row of ${damaged.table} stands for is not what was kept`,
    }
  );
}

/** The first row this entry names that is not as it was, and notes those that are. */
async function findAltered(
  reader: Reader,
  { sequence, rows }: LedgerEntry,
  named: Map<string, Set<string>>,
): Promise<RecordsBroken | undefined> {
  const byTable = new Map<string, LedgerRow[]>();
  for (const row of rows) byTable.set(row.table, [...(byTable.get(row.table) ?? []), row]);
  for (const [table, wanted] of byTable) {
    const ids = named.get(table);
    if (!ids)
      return { holds: false, sequence, table, because: `entry ${sequence} names "${table}", which is no table` };
    const found = await reader.manager.query<DriverRow[]>(
      `select * from "${table}" where lab_id = $1 and id = any($2)`,
      [reader.labId, wanted.map(({ id }) => id)],
    );
    const stored = new Map(found.map((row) => [String(row.id), row]));
    for (const { id, digest } of wanted) {
      const row = stored.get(id);
      const broken = { holds: false as const, sequence, table, id };
      if (ids.has(id)) return { ...broken, because: `a row of ${table} is named by entry ${sequence} a second time` };
      if (!row) return { ...broken, because: `a row of ${table} that entry ${sequence} names is missing` };
      if (!hasDigest(row, digest))
        return { ...broken, because: `a row of ${table} is not what entry ${sequence} says` };
      ids.add(id);
    }
  }
  return undefined;
}

function hasDigest(row: DriverRow, digest: string): boolean {
  try {
    return rowDigest(row) === digest;
  } catch {
    return false; // A value that canonical JSON cannot hold was never written here.
  }
}

/** The first row that no entry names. */
async function findUnnamed(reader: Reader, named: Map<string, Set<string>>): Promise<RecordsBroken | undefined> {
  for (const [table, ids] of named) {
    const rows = await reader.manager.query<{ id: string }[]>(`select id from "${table}" where lab_id = $1`, [
      reader.labId,
    ]);
    const unnamed = rows.find(({ id }) => !ids.has(id));
    if (unnamed) return { holds: false, table, id: unnamed.id, because: `a row of ${table} is named by no entry` };
  }
  return undefined;
}

async function findDamagedFile(reader: Reader, store: RawStore, steps: () => void): Promise<RecordsBroken | undefined> {
  for (const { id } of await reader.find(RawBytes, {})) {
    try {
      for await (const _ of store.read(reader, id)); // Reading is checking.
      steps();
    } catch (error) {
      if (!(error instanceof EvidenceDamaged)) throw error;
      return { holds: false, table: tableName(reader, RawBytes), id, because: error.message };
    }
  }
  return undefined;
}

function tableName(reader: Reader, table: (typeof EVIDENCE)[number]): string {
  return reader.manager.dataSource.getMetadata(table).tableName;
}

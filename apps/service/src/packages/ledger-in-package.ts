import { formatNamedRow, formatProvedEntry, type MerkleTree, parseEntry } from '@breakbook/evidence';
import type { Reader, StoredRow } from '@breakbook/records';
import { namedRow, peopleIn } from './lot-in-package.js';
import type { TablesOf } from './lot-tables.js';

/** The part of the ledger that names the rows of a lot. */
export interface LedgerInPackage {
  /** Lines of `ledger/entries.jsonl` and of `ledger/rows.jsonl`. */
  entryLines: string;
  rowLines: string;
  inTable: TablesOf['entries'];
}

const BATCH = 500;

/**
 * Every entry that names one of these rows, each with the proof that it is among the first `size`. A row was added in the
 * moment of its entry, so the moments find the entries among all those of the lab.
 */
export async function ledgerInPackage(
  { manager, labId }: Reader,
  rows: readonly StoredRow[],
  { tree, size }: { tree: MerkleTree; size: number },
): Promise<LedgerInPackage> {
  const people = peopleIn(rows);
  const open = new Set(rows.map(({ row }) => row.id));
  const moments = [...new Set(rows.map(({ row }) => (row.at as Date).toISOString()))];
  const lines: string[] = [];
  const inTable: TablesOf['entries'] = [];
  for (let after = 0; ; ) {
    const batch = await manager.query<{ sequence: number; text: string; hash: string }[]>(
      `select sequence, text, hash from ledger_entry
       where lab_id = $1 and sequence > $2 and sequence <= $3 and at = any($4::timestamptz[])
       order by sequence limit ${BATCH}`,
      [labId, after, size, moments],
    );
    for (const stored of batch) {
      const entry = parseEntry(stored.text);
      const found = entry.rows.filter(({ id }) => open.delete(id));
      if (found.length === 0) continue;
      lines.push(formatProvedEntry(stored, tree, size));
      const { sequence, at, by, action, reason } = entry;
      inTable.push({
        sequence,
        at,
        by: people.get(by) ?? by,
        action,
        ...(reason ? { reason } : {}),
        hash: stored.hash,
      });
    }
    if (batch.length < BATCH) break;
    after = batch.at(-1)?.sequence ?? size;
  }
  const [unnamed] = open;
  if (unnamed !== undefined) throw new Error(`Row ${unnamed} is named by no entry of the ledger.`);
  return { entryLines: lines.join(''), rowLines: rows.map((one) => formatNamedRow(namedRow(one))).join(''), inTable };
}

import { z } from 'zod';
import { canonicalJson, parseCanonicalJson } from '../canonical-json.js';
import { checkInclusion } from '../check-proofs.js';
import { type Checkpoint, openCheckpoint } from '../checkpoint.js';
import { type Digest, digestOf } from '../digest.js';
import { entryHash, parseEntry } from '../ledger-entry.js';
import type { MerkleTree } from '../merkle-tree.js';
import type { NoteKey } from '../signed-note.js';
import { LEDGER } from './data-package.js';
import { DoesNotFit, linesOfFile, type PackageSource, textOfFile } from './package-source.js';

const ProvedEntry = z.strictObject({
  text: z.string(),
  hash: z.string(),
  /** Its place in the tree, counted from 0, and the hashes from there to the root of the checkpoint. */
  leaf: z.int().min(0),
  proof: z.array(z.string()),
});
const NamedRow = z.strictObject({ table: z.string().min(1), row: z.looseObject({ id: z.string().min(1) }) });
export type NamedRow = z.infer<typeof NamedRow>;

/** A line of `ledger/entries.jsonl`: an entry with the proof that it is among the first `size` of the ledger. */
export function formatProvedEntry(
  entry: { text: string; hash: Digest; sequence: number },
  tree: MerkleTree,
  size: number,
) {
  const leaf = entry.sequence - 1;
  return `${canonicalJson({ text: entry.text, hash: entry.hash, leaf, proof: tree.proveInclusion(leaf, size) })}\n`;
}

/** A line of `ledger/rows.jsonl`: a row as its entry has the digest of it. */
export function formatNamedRow(row: NamedRow): string {
  return `${canonicalJson(row)}\n`;
}

export interface CheckedLedger {
  checkpoint: Checkpoint;
  entries: number;
  rows: NamedRow[];
}

/**
 * Do the entries of a package stand in the ledger that its checkpoint speaks of, and is each row what an entry says?
 * The key opens the checkpoint; whose it is, is for whoever gave it to know.
 */
export async function checkPackageLedger(source: PackageSource, key: NoteKey): Promise<CheckedLedger> {
  const checkpoint = await opened(source, key);
  const named = new Map<string, { digest: Digest; table: string }>();
  let entries = 0;
  let last = -1;
  for await (const { line, at } of linesOfFile(source, LEDGER.entries)) {
    const place = `line ${at}`;
    const { text, hash, leaf, proof } = parsed(line, ProvedEntry, LEDGER.entries, place);
    if (entryHash(text) !== hash)
      throw new DoesNotFit(LEDGER.entries, `${place}: its text hashes to another than ${hash}`);
    const entry = attempt(() => parseEntry(text), LEDGER.entries, place);
    if (entry.sequence !== leaf + 1)
      throw new DoesNotFit(LEDGER.entries, `${place}: entry ${entry.sequence} stands at leaf ${leaf}`);
    if (leaf <= last) throw new DoesNotFit(LEDGER.entries, `${place}: entry ${entry.sequence} is out of order`);
    if (!checkpoint.origin.endsWith(`/${entry.lab}`))
      throw new DoesNotFit(LEDGER.entries, `${place}: entry ${entry.sequence} is of another lab than the checkpoint`);
    if (!checkInclusion({ hash, leaf, ...checkpoint }, proof))
      throw new DoesNotFit(
        LEDGER.entries,
        `${place}: the proof does not show that entry ${entry.sequence} is in the ledger of the checkpoint`,
      );
    last = leaf;
    entries += 1;
    for (const { id, table, digest } of entry.rows) named.set(id, { table, digest });
  }
  return { checkpoint, entries, rows: await checkedRows(source, named) };
}

async function opened(source: PackageSource, key: NoteKey): Promise<Checkpoint> {
  const note = await textOfFile(source, LEDGER.checkpoint);
  try {
    return openCheckpoint(note, key);
  } catch (error) {
    throw new DoesNotFit(LEDGER.checkpoint, (error as Error).message);
  }
}

async function checkedRows(
  source: PackageSource,
  named: ReadonlyMap<string, { digest: Digest; table: string }>,
): Promise<NamedRow[]> {
  const rows: NamedRow[] = [];
  const seen = new Set<string>();
  for await (const { line, at } of linesOfFile(source, LEDGER.rows)) {
    const place = `line ${at}`;
    const one = parsed(line, NamedRow, LEDGER.rows, place);
    const { table, row } = one;
    const said = named.get(row.id);
    if (!said || said.table !== table)
      throw new DoesNotFit(LEDGER.rows, `${place}: no entry of the package names this row of ${table}`);
    if (seen.has(row.id)) throw new DoesNotFit(LEDGER.rows, `${place}: a row of ${table} stands twice`);
    if (digestOf(row) !== said.digest)
      throw new DoesNotFit(LEDGER.rows, `${place}: a row of ${table} is not what its entry says`);
    seen.add(row.id);
    rows.push(one);
  }
  return rows;
}

function parsed<T>(line: string, schema: z.ZodType<T>, path: string, place: string): T {
  return attempt(() => schema.parse(parseCanonicalJson(line)), path, place);
}

function attempt<T>(read: () => T, path: string, place: string): T {
  try {
    return read();
  } catch (error) {
    const because =
      error instanceof z.ZodError ? (error.issues[0]?.message ?? 'of another form') : String((error as Error).message);
    throw new DoesNotFit(path, `${place}: ${because}`);
  }
}

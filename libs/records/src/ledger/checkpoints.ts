import { formatNoteKey, type MerkleTree, openCheckpoint, parseNoteKey, signCheckpoint } from '@breakbook/evidence';
import type { Reader } from '../change/reader.js';
import { newId } from '../change/rows.js';
import { LedgerCheckpoint } from '../entities/index.js';
import { type LedgerKey, ledgerOrigin } from './ledger-keys.js';

/** Signs how far the ledger has grown, unless that was done already; undefined for a ledger without entries. */
export async function makeCheckpoint(
  { manager, labId }: Reader,
  tree: MerkleTree,
  key: LedgerKey,
): Promise<LedgerCheckpoint | undefined> {
  const size = tree.size;
  if (size === 0) return undefined;
  const root = tree.root();
  const written = {
    labId,
    id: newId(),
    size,
    root,
    key: formatNoteKey(key),
    note: signCheckpoint({ origin: key.name, size, root }, key.privateKey),
  };
  await manager.createQueryBuilder().insert().into(LedgerCheckpoint).values(written).orIgnore().execute();
  return manager.findOneByOrFail(LedgerCheckpoint, { labId, size, key: written.key });
}

/** The last checkpoint of a lab's ledger. */
export async function lastCheckpoint({ manager, labId }: Reader): Promise<LedgerCheckpoint | undefined> {
  const [last] = await manager.find(LedgerCheckpoint, {
    where: { labId },
    order: { size: 'desc', id: 'desc' },
    take: 1,
  });
  return last;
}

/** A checkpoint that was kept elsewhere, and the key to open it with. */
export interface KeptElsewhere {
  note: string;
  key: string;
}

/**
 * Does the ledger still begin as this checkpoint says it did? Undefined where it does, else what does not fit. Throws
 * where the note is none of this key's.
 */
export function whyNotBeginning(labId: string, tree: MerkleTree, { note, key }: KeptElsewhere): string | undefined {
  const { origin, size, root } = openCheckpoint(note, parseNoteKey(key));
  if (origin !== ledgerOrigin(labId)) return `it is of ${origin}, and this ledger is ${ledgerOrigin(labId)}`;
  if (size > tree.size) return `the ledger has ${tree.size} entries, and a checkpoint was signed when it had ${size}`;
  const now = tree.root(size);
  if (now !== root)
    return `the first ${size} entries come to the root ${now}, and a checkpoint was signed when they came to ${root}`;
  return undefined;
}

/** The first stored checkpoint that does not fit the ledger, and why. */
export async function brokenCheckpoint(
  { manager, labId }: Reader,
  tree: MerkleTree,
): Promise<{ count: number; broken?: { id: string; because: string } }> {
  const stored = await manager.find(LedgerCheckpoint, { where: { labId }, order: { size: 'asc', id: 'asc' } });
  for (const one of stored) {
    const because = whyDamaged(one) ?? whyNotBeginning(labId, tree, one);
    if (because) return { count: stored.length, broken: { id: one.id, because } };
  }
  return { count: stored.length };
}

function whyDamaged({ note, key, size, root }: LedgerCheckpoint): string | undefined {
  try {
    const said = openCheckpoint(note, parseNoteKey(key));
    return said.size === size && said.root === root ? undefined : 'its columns say other than its note';
  } catch (error) {
    return (error as Error).message;
  }
}

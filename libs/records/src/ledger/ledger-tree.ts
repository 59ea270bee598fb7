import { MerkleTree } from '@breakbook/evidence';
import type { Reader } from '../change/reader.js';

const BATCH = 20_000;

/** Adds to a tree the entries of the ledger that it does not have yet. */
export async function growTree({ manager, labId }: Reader, tree: MerkleTree): Promise<void> {
  for (;;) {
    const batch = await manager.query<{ hash: string }[]>(
      'select hash from ledger_entry where lab_id = $1 and sequence > $2 order by sequence limit $3',
      [labId, tree.size, BATCH],
    );
    for (const { hash } of batch) tree.append(hash);
    if (batch.length < BATCH) return;
  }
}

/** The trees of the labs' ledgers, kept between questions: an entry once written stays as it is. */
export class LedgerTrees {
  readonly #trees = new Map<string, { tree: MerkleTree; growing: Promise<void> }>();

  /** The tree over everything written so far. */
  async of(reader: Reader): Promise<MerkleTree> {
    const kept = this.#trees.get(reader.labId) ?? { tree: new MerkleTree(), growing: Promise.resolve() };
    this.#trees.set(reader.labId, kept);
    // One after another: two that grew it at once would add an entry twice.
    const growing = kept.growing.then(() => growTree(reader, kept.tree));
    kept.growing = growing.catch(() => {});
    await growing;
    return kept.tree;
  }
}

import { createHash } from 'node:crypto';
import { type Digest, isDigest, sha256 } from './digest.js';

/**
 * A Merkle tree over the entries of a ledger, as RFC 9162, section 2.1 has it: leaves are the hashes of entries
 * (SHA-256(0x00 ‖ entry), which `entryHash` gives), a node is SHA-256(0x01 ‖ left ‖ right), and the tree of n leaves
 * splits at the largest power of two below n. Entries are only ever added, so what was once a whole subtree stays.
 */
export class MerkleTree {
  /** Hashes of whole subtrees: of 1, 2, 4, 8 ... leaves each, one behind the other. */
  readonly #levels: Level[] = [];

  /** How many leaves it has. */
  get size(): number {
    return this.#levels[0]?.count ?? 0;
  }

  /** Adds the next leaf, by its hash. */
  append(leaf: Digest): void {
    let hash: Uint8Array = bytesOf(leaf);
    for (let level = 0; ; level++) {
      const nodes = this.#levels[level] ?? new Level();
      this.#levels[level] = nodes;
      nodes.add(hash);
      if (nodes.count % 2 === 1) return;
      hash = nodeHash(nodes.at(nodes.count - 2), nodes.at(nodes.count - 1));
    }
  }

  /** The root over its first `size` leaves; of none, the hash of nothing. */
  root(size = this.size): Digest {
    this.#require(size);
    return size === 0 ? sha256('') : hexOf(this.#hashOf(0, size));
  }

  /**
   * The hashes that lead from one leaf (counted from 0) to the root over the first `size`.
   *
   * Source: RFC 9162, 2.1.3.1.
   */
  proveInclusion(leaf: number, size = this.size): Digest[] {
    this.#require(size);
    if (!Number.isSafeInteger(leaf) || leaf < 0 || leaf >= size)
      throw new RangeError(`proveInclusion: leaf must be a whole number from 0 to ${size - 1}; got ${leaf}.`);
    const path: Uint8Array[] = [];
    let [from, to] = [0, size];
    while (to - from > 1) {
      const middle = from + splitOf(to - from);
      if (leaf < middle) {
        path.push(this.#hashOf(middle, to));
        to = middle;
      } else {
        path.push(this.#hashOf(from, middle));
        from = middle;
      }
    }
    return path.reverse().map(hexOf);
  }

  /**
   * The hashes that show that the tree of the first `earlier` leaves is a beginning of that of the first `later`.
   *
   * Source: RFC 9162, 2.1.4.1.
   */
  proveConsistency(earlier: number, later = this.size): Digest[] {
    this.#require(later);
    if (!Number.isSafeInteger(earlier) || earlier < 1 || earlier > later)
      throw new RangeError(`proveConsistency: earlier must be a whole number from 1 to ${later}; got ${earlier}.`);
    const path: Uint8Array[] = [];
    let [from, to, whole] = [0, later, true];
    while (earlier < to) {
      const middle = from + splitOf(to - from);
      if (earlier <= middle) {
        path.push(this.#hashOf(middle, to));
        to = middle;
      } else {
        path.push(this.#hashOf(from, middle));
        [from, whole] = [middle, false];
      }
    }
    // What is left is a subtree of both: known to whoever knows the earlier root, where it is all of the earlier tree.
    if (!whole) path.push(this.#hashOf(from, to));
    return path.reverse().map(hexOf);
  }

  /** Hash over the leaves from `from` on and before `to`; `from` is a multiple of the split of what is asked for. */
  #hashOf(from: number, to: number): Uint8Array {
    const count = to - from;
    const level = Math.log2(count);
    if (Number.isInteger(level)) return (this.#levels[level] as Level).at(from / count);
    const middle = from + splitOf(count);
    return nodeHash(this.#hashOf(from, middle), this.#hashOf(middle, to));
  }

  #require(size: number): void {
    if (!Number.isSafeInteger(size) || size < 0 || size > this.size)
      throw new RangeError(`MerkleTree: size must be a whole number from 0 to ${this.size}; got ${size}.`);
  }
}

const HASH = 32;

/** Hashes of one level, in one piece of memory that doubles as it fills. */
class Level {
  count = 0;
  #bytes = new Uint8Array(8 * HASH);

  add(hash: Uint8Array): void {
    if ((this.count + 1) * HASH > this.#bytes.length) {
      const wider = new Uint8Array(2 * this.#bytes.length);
      wider.set(this.#bytes);
      this.#bytes = wider;
    }
    this.#bytes.set(hash, this.count * HASH);
    this.count++;
  }

  at(index: number): Uint8Array {
    return this.#bytes.subarray(index * HASH, (index + 1) * HASH);
  }
}

/** The largest power of two below n, for n of at least 2. */
function splitOf(n: number): number {
  return 2 ** Math.floor(Math.log2(n - 1));
}

/** SHA-256(0x01 ‖ left ‖ right). */
export function nodeHash(left: Uint8Array, right: Uint8Array): Uint8Array {
  return createHash('sha256').update(Uint8Array.of(1)).update(left).update(right).digest();
}

export function bytesOf(digest: Digest): Uint8Array {
  if (!isDigest(digest))
    throw new RangeError(`A leaf is a SHA-256 digest of 64 lower-case hexadecimal digits; got "${digest}".`);
  return Buffer.from(digest, 'hex');
}

export function hexOf(hash: Uint8Array): Digest {
  return Buffer.from(hash).toString('hex');
}

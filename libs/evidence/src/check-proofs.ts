import { type Digest, isDigest } from './digest.js';
import { bytesOf, hexOf, nodeHash } from './merkle-tree.js';

/** What a proof of inclusion claims: that this leaf stands at this place of the tree with this root. */
export interface Inclusion {
  /** Hash of the leaf, and its place counted from 0. */
  hash: Digest;
  leaf: number;
  size: number;
  root: Digest;
}

/**
 * Does the proof show it? A proof with a hash too many, too few or of another form shows nothing.
 *
 * Source: RFC 9162, 2.1.3.2.
 */
export function checkInclusion({ hash, leaf, size, root }: Inclusion, proof: readonly Digest[]): boolean {
  if (!areWhole(leaf, size) || leaf < 0 || leaf >= size || ![hash, root, ...proof].every(isDigest)) return false;
  let [fn, sn] = [leaf, size - 1];
  let reached = bytesOf(hash);
  for (const step of proof.map(bytesOf)) {
    if (sn === 0) return false;
    if (fn % 2 === 1 || fn === sn) {
      reached = nodeHash(step, reached);
      [fn, sn] = untilOdd(fn, sn);
    } else reached = nodeHash(reached, step);
    [fn, sn] = [half(fn), half(sn)];
  }
  return sn === 0 && hexOf(reached) === root;
}

/** What a proof of consistency claims: that the earlier tree is a beginning of the later one. */
export interface Consistency {
  earlier: { size: number; root: Digest };
  later: { size: number; root: Digest };
}

/**
 * Does the proof show it? Two trees of one size are consistent where they have one root, and need no proof.
 *
 * Source: RFC 9162, 2.1.4.2.
 */
export function checkConsistency({ earlier, later }: Consistency, proof: readonly Digest[]): boolean {
  const [first, second] = [earlier.size, later.size];
  if (!areWhole(first, second) || first < 1 || first > second) return false;
  if (![earlier.root, later.root, ...proof].every(isDigest)) return false;
  if (first === second) return proof.length === 0 && earlier.root === later.root;

  const path = [...(isPowerOfTwo(first) ? [earlier.root] : []), ...proof].map(bytesOf);
  const [start, ...steps] = path;
  if (!start) return false;
  let [fn, sn] = [first - 1, second - 1];
  while (fn % 2 === 1) [fn, sn] = [half(fn), half(sn)];
  let [old, now] = [start, start];
  for (const step of steps) {
    if (sn === 0) return false;
    if (fn % 2 === 1 || fn === sn) {
      [old, now] = [nodeHash(step, old), nodeHash(step, now)];
      [fn, sn] = untilOdd(fn, sn);
    } else now = nodeHash(now, step);
    [fn, sn] = [half(fn), half(sn)];
  }
  return sn === 0 && hexOf(old) === earlier.root && hexOf(now) === later.root;
}

/** Both halved until the first is odd or nothing. */
function untilOdd(fn: number, sn: number): [number, number] {
  let [a, b] = [fn, sn];
  while (a % 2 === 0 && a !== 0) [a, b] = [half(a), half(b)];
  return [a, b];
}

function half(n: number): number {
  return Math.floor(n / 2);
}

function isPowerOfTwo(n: number): boolean {
  return Number.isInteger(Math.log2(n));
}

function areWhole(...numbers: number[]): boolean {
  return numbers.every(Number.isSafeInteger);
}

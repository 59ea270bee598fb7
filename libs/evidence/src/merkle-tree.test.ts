import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkConsistency, checkInclusion } from './check-proofs.js';
import { type Digest, sha256 } from './digest.js';
import { entryHash } from './ledger-entry.js';
import { MerkleTree } from './merkle-tree.js';

/**
 * Leaves and roots of the trees of one to eight leaves that implementations of RFC 6962 (whose hashing RFC 9162 keeps)
 * are tried with, from the certificate-transparency project's test of Merkle trees; from memory.
 */
const LEAVES = ['', '00', '10', '2021', '3031', '40414243', '5051525354555657', '606162636465666768696a6b6c6d6e6f'];
const ROOTS = [
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
];

function treeOf(leaves: readonly Digest[]): MerkleTree {
  const tree = new MerkleTree();
  for (const leaf of leaves) tree.append(leaf);
  return tree;
}

/** The definition itself, RFC 9162, 2.1.1, written down without any memory of subtrees. */
function rootByDefinition(leaves: readonly Digest[]): Digest {
  if (leaves.length === 1) return leaves[0] as Digest;
  let split = 1;
  while (2 * split < leaves.length) split *= 2;
  const [left, right] = [leaves.slice(0, split), leaves.slice(split)].map(rootByDefinition);
  return sha256(Buffer.concat([Uint8Array.of(1), Buffer.from(left ?? '', 'hex'), Buffer.from(right ?? '', 'hex')]));
}

const published = LEAVES.map((hex) => sha256(Buffer.concat([Uint8Array.of(0), Buffer.from(hex, 'hex')])));

describe('the root of a tree', () => {
  it('is the published one for one to eight leaves', () => {
    const tree = treeOf(published);
    expect(ROOTS.map((_, index) => tree.root(index + 1))).toEqual(ROOTS);
  });

  it('of no leaves is the hash of nothing', () => {
    // RFC 9162, 2.1.1: the hash of an empty list is that of an empty string.
    expect(new MerkleTree().root()).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
  });

  it('is what the definition says, for every size', () => {
    const leaves = Array.from({ length: 70 }, (_, n) => entryHash(`entry ${n}`));
    const tree = treeOf(leaves);
    for (let size = 1; size <= leaves.length; size++)
      expect(tree.root(size)).toBe(rootByDefinition(leaves.slice(0, size)));
  });

  it.each([-1, 9, 1.5, Number.NaN])('is asked for %s leaves in vain', (size) => {
    expect(() => treeOf(published).root(size)).toThrow(RangeError);
  });

  it('takes no leaf that is no digest', () => {
    expect(() => new MerkleTree().append('6E340b9c')).toThrow(/64 lower-case hexadecimal digits/);
  });
});

describe('the tree of seven leaves of RFC 9162, 2.1.5', () => {
  const leaves = ['d0', 'd1', 'd2', 'd3', 'd4', 'd5', 'd6'].map((text) => entryHash(text));
  const tree = treeOf(leaves);
  const node = (a: Digest, b: Digest) => rootByDefinition([a, b]);
  const [a, b, c, d, e, f, j] = leaves as [Digest, Digest, Digest, Digest, Digest, Digest, Digest];
  const [g, h, i] = [node(a, b), node(c, d), node(e, f)];
  const [k, l] = [node(g, h), node(i, j)];

  it.each([
    [0, [b, h, l]],
    [3, [c, g, l]],
    [4, [f, j, k]],
    [6, [i, k]],
  ])('has the inclusion proof of d%s', (leaf, proof) => {
    expect(tree.proveInclusion(leaf)).toEqual(proof);
  });

  it.each([
    [3, [c, d, g, l]],
    [4, [l]],
    [6, [i, j, k]],
  ])('has the consistency proof from %s leaves', (earlier, proof) => {
    expect(tree.proveConsistency(earlier)).toEqual(proof);
  });
});

describe('proofs', () => {
  const leaves = Array.from({ length: 70 }, (_, n) => entryHash(`entry ${n}`));
  let tree: MerkleTree;
  beforeAll(() => {
    tree = treeOf(leaves);
  });

  it('of inclusion are accepted for every leaf of every size, and no longer than the tree is high', () => {
    for (let size = 1; size <= leaves.length; size++)
      for (let leaf = 0; leaf < size; leaf++) {
        const proof = tree.proveInclusion(leaf, size);
        expect(proof.length).toBeLessThanOrEqual(Math.ceil(Math.log2(size)));
        expect(checkInclusion({ hash: leaves[leaf] as Digest, leaf, size, root: tree.root(size) }, proof)).toBe(true);
      }
  });

  it('of consistency are accepted for every pair of sizes', () => {
    for (let later = 1; later <= leaves.length; later++)
      for (let earlier = 1; earlier <= later; earlier++) {
        const claim = {
          earlier: { size: earlier, root: tree.root(earlier) },
          later: { size: later, root: tree.root(later) },
        };
        expect(checkConsistency(claim, tree.proveConsistency(earlier, later))).toBe(true);
      }
  });

  /** Every way to spoil a list of hashes: each hash changed in each of its digits, left out, put in twice, and swapped. */
  function spoiled(proof: readonly Digest[]): Digest[][] {
    return proof.flatMap((hash, at) => [
      ...Array.from(hash, (digit, place) =>
        proof.with(at, `${hash.slice(0, place)}${digit === '0' ? '1' : '0'}${hash.slice(place + 1)}`),
      ),
      proof.toSpliced(at, 1),
      proof.toSpliced(at, 0, hash),
      ...(at > 0 ? [proof.with(at, proof[at - 1] as Digest).with(at - 1, hash)] : []),
      proof.with(at, hash.toUpperCase().replace(/^[0-9]/, 'A')),
      proof.with(at, ''),
    ]);
  }
  const added = (proof: readonly Digest[]) => [...proof, leaves[0] as Digest];

  it('of inclusion are refused with any part changed', () => {
    for (const [leaf, size] of [
      [0, 1],
      [0, 7],
      [6, 7],
      [20, 37],
      [69, 70],
    ] as const) {
      const claim = { hash: leaves[leaf] as Digest, leaf, size, root: tree.root(size) };
      const proof = tree.proveInclusion(leaf, size);
      for (const other of [...spoiled(proof), added(proof)]) expect(checkInclusion(claim, other)).toBe(false);
      for (const change of [
        { hash: entryHash('another') },
        { root: tree.root(size === 70 ? 69 : size + 1) },
        { leaf: leaf + 1 },
        { leaf: leaf - 1 },
        { size: size * 2 + 1 },
        { leaf: Number.NaN },
        { size: 0 },
      ])
        expect(checkInclusion({ ...claim, ...change }, proof)).toBe(false);
    }
  });

  it('of consistency are refused with any part changed', () => {
    for (const [first, second] of [
      [1, 2],
      [3, 7],
      [4, 7],
      [6, 7],
      [32, 70],
      [37, 70],
    ] as const) {
      const claim = {
        earlier: { size: first, root: tree.root(first) },
        later: { size: second, root: tree.root(second) },
      };
      const proof = tree.proveConsistency(first, second);
      for (const other of [...spoiled(proof), added(proof)]) expect(checkConsistency(claim, other)).toBe(false);
      for (const change of [
        { earlier: { size: first, root: entryHash('another') } },
        { later: { size: second, root: entryHash('another') } },
        { earlier: { size: first + 1, root: tree.root(first) } },
        { later: { size: 2 * second + 1, root: tree.root(second) } },
        { earlier: { size: 0, root: tree.root(0) } },
        { earlier: claim.later, later: claim.earlier },
      ])
        expect(checkConsistency({ ...claim, ...change }, proof)).toBe(false);
    }
  });

  it('of consistency between one size and itself are the same root and nothing else', () => {
    const same = { size: 5, root: tree.root(5) };
    expect(tree.proveConsistency(5, 5)).toEqual([]);
    expect(checkConsistency({ earlier: same, later: same }, [])).toBe(true);
    expect(checkConsistency({ earlier: same, later: same }, [same.root])).toBe(false);
    expect(checkConsistency({ earlier: same, later: { ...same, root: tree.root(6) } }, [])).toBe(false);
  });

  it('hold for trees of any size', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.nat(), fc.nat(), (size, one, other) => {
        const many = Array.from({ length: size }, (_, n) => entryHash(`${n}`));
        const grown = treeOf(many);
        const leaf = one % size;
        const earlier = 1 + (other % size);
        expect(grown.root()).toBe(rootByDefinition(many));
        const claim = { hash: many[leaf] as Digest, leaf, size, root: grown.root() };
        expect(checkInclusion(claim, grown.proveInclusion(leaf))).toBe(true);
        const pair = { earlier: { size: earlier, root: grown.root(earlier) }, later: { size, root: grown.root() } };
        expect(checkConsistency(pair, grown.proveConsistency(earlier))).toBe(true);
      }),
      { seed: 6, numRuns: 60 },
    );
  });

  it.each([
    () => tree.proveInclusion(70),
    () => tree.proveInclusion(-1),
    () => tree.proveInclusion(3, 3),
    () => tree.proveInclusion(0, 71),
    () => tree.proveConsistency(0),
    () => tree.proveConsistency(71),
    () => tree.proveConsistency(8, 7),
  ])('are not made of what the tree does not have: %s', (prove) => {
    expect(prove).toThrow(RangeError);
  });
});

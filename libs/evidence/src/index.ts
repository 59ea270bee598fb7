/** Evidence: canonical JSON, digests, the hash chain. Mathematics; no storage. */
export * from './canonical-json.js';
export * from './chain.js';
export * from './check-proofs.js';
export * from './checkpoint.js';
export * from './differences.js';
export * from './digest.js';
export * from './ledger-entry.js';
export { MerkleTree } from './merkle-tree.js';
export * from './signed-note.js';

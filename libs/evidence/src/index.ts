/** Evidence: canonical JSON, digests, the hash chain. Mathematics; no storage. */
export * from './canonical-json.js';
export * from './chain.js';
export * from './check-proofs.js';
export * from './checkpoint.js';
export * from './differences.js';
export * from './digest.js';
export * from './ledger-entry.js';
export { MerkleTree } from './merkle-tree.js';
export {
  type CheckPackageOptions,
  checkPackage,
  type PackageBroken,
  type PackageHolds,
} from './package/check-package.js';
export * from './package/data-package.js';
export * from './package/data-table.js';
export * from './package/harmless-cells.js';
export { formatNamedRow, formatProvedEntry, type NamedRow } from './package/package-ledger.js';
export { DoesNotFit, type PackageSource } from './package/package-source.js';
export * from './package/seal.js';
export * from './signed-note.js';
export * from './signing/index.js';

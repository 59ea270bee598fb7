export * from './checkpoints.js';
export * from './ledger-keys.js';
export * from './ledger-tree.js';

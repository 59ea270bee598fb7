export * from './checkpoints.js';
export * from './key-files.js';
export * from './ledger-keys.js';
export * from './ledger-tree.js';

export * from './destroy.js';
export * from './reader.js';
export * from './records.js';
export * from './row-digest.js';
export * from './rows.js';

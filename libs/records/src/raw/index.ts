export * from './postgres-raw-store.js';
export * from './raw-source.js';
export * from './raw-store.js';
export * from './unread-files.js';

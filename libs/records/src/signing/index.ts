export * from './document-keys.js';

/** Records: tables, the one way to change them, raw bytes, the database itself. */
export * from './change/index.js';
export * from './database/index.js';
export * as tables from './entities/index.js';

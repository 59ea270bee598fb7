/** Records: tables, the one way to change them, raw bytes, the database itself. */
export * from './change/index.js';
export * from './closure/rows-it-rests-on.js';
export * from './database/index.js';
export * as tables from './entities/index.js';
export type { Noun, Row, Version } from './entities/row.js';
export * from './labs/found-lab.js';
export * from './ledger/index.js';
export * from './raw/index.js';
export * from './signing/index.js';
export * from './verify/verify-records.js';
export * from './withheld/withheld-text.js';

/** Items of unknown making, lots or suppliers, compared with what is known: declared, handed on, looked at, concluded. */
export * from './case.js';
export * from './custody.js';
export * from './declarations.js';
export {
  COMPARISON_DOCUMENT,
  COMPARISON_LOTS,
  type ComparisonFolder,
  readComparisonFolder,
} from './folder/read-comparison-folder.js';
export * from './observations.js';
export * from './references.js';
export * from './results.js';
export * from './tools-in-words.js';

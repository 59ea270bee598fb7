export * from './not-evaluated.js';
export * from './sample.js';

export * from './uncertainty/combine-uncertainty.js';
export * from './uncertainty/standard-uncertainty.js';

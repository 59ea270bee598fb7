/** States as tables: which moves there are, from where to where, whose they are and what must hold. */
export * from './comparison-states.js';
export * from './decision-states.js';
export * from './definition-states.js';
export * from './keeping-states.js';
export * from './lot-states.js';
export * from './run-states.js';
export * from './specimen-states.js';
export * from './state-table.js';
export * from './used-again.js';

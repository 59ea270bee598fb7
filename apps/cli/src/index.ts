export { breakbook } from './program.js';

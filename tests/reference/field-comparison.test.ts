import { runReference } from './run-reference.js';

runReference('./field-comparison.json');

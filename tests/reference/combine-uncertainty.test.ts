import { runReference } from './run-reference.ts';

runReference('./combine-uncertainty.json');

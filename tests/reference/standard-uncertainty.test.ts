import { runReference } from './run-reference.ts';

runReference('./standard-uncertainty.json');

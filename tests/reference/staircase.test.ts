import { runReference } from './run-reference.ts';

runReference('./staircase.json');

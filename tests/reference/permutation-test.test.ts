import { runReference } from './run-reference.ts';

runReference('./permutation-test.json');

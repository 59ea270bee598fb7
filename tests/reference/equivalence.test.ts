import { runReference } from './run-reference.ts';

runReference('./equivalence.json');

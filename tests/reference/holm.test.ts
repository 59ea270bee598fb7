import { runReference } from './run-reference.ts';

runReference('./holm.json');

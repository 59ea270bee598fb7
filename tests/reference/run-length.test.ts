import { runReference } from './run-reference.ts';

runReference('./run-length.json');

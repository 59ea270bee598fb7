import { runReference } from './run-reference.ts';

runReference('./freeman-halton.json');

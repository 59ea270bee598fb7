import { runReference } from './run-reference.ts';

runReference('./variance-ratio.json');

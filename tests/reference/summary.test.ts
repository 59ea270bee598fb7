import { runReference } from './run-reference.ts';

runReference('./summary.json');

import { runReference } from './run-reference.ts';

runReference('./normal-tolerance.json');

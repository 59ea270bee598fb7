import { runReference } from './run-reference.ts';

runReference('./plotting-positions.json');

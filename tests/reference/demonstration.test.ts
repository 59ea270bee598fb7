import { runReference } from './run-reference.ts';

runReference('./demonstration.json');

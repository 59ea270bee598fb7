import { runReference } from './run-reference.ts';

runReference('./operating-characteristic.json');

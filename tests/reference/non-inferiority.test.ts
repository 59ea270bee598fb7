import { runReference } from './run-reference.ts';

runReference('./non-inferiority.json');

import { runReference } from './run-reference.ts';

runReference('./sample-size.json');

import { runReference } from './run-reference.ts';

runReference('./guard-band.json');

import { runReference } from './run-reference.ts';

runReference('./conformance-probability.json');

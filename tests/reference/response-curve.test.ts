import { runReference } from './run-reference.ts';

runReference('./response-curve.json');

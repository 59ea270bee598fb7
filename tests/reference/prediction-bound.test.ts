import { runReference } from './run-reference.ts';

runReference('./prediction-bound.json');

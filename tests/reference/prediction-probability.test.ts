import { runReference } from './run-reference.ts';

runReference('./prediction-probability.json');

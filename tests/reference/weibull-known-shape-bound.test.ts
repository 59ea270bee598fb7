import { runReference } from './run-reference.ts';

runReference('./weibull-known-shape-bound.json');

import { runReference } from './run-reference.ts';

runReference('./weibull-rank-regression.json');

import { runReference } from './run-reference.ts';

runReference('./weibull-comparison.json');

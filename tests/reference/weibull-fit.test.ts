import { runReference } from './run-reference.ts';

runReference('./weibull-fit.json');

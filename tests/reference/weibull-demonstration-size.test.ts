import { runReference } from './run-reference.ts';

runReference('./weibull-demonstration-size.json');

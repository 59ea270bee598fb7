import { runReference } from './run-reference.ts';

runReference('./weibull-tolerance-factor.json');

import { runReference } from './run-reference.ts';

runReference('./normal-lognormal-fit.json');

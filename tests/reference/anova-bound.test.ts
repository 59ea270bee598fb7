import { runReference } from './run-reference.ts';

runReference('./anova-bound.json');

import { runReference } from './run-reference.ts';

runReference('./kaplan-meier.json');

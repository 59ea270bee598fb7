import { runReference } from './run-reference.ts';

runReference('./chart-constants.json');

import { runReference } from './run-reference.ts';

runReference('./acceptance-risks.json');

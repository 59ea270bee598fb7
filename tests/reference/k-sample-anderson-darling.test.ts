import { runReference } from './run-reference.ts';

runReference('./k-sample-anderson-darling.json');

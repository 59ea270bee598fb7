import { runReference } from './run-reference.ts';

runReference('./lots-prediction.json');

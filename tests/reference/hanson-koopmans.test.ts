import { runReference } from './run-reference.ts';

runReference('./hanson-koopmans.json');

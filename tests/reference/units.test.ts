import { runReference } from './run-reference.ts';

runReference('./units.json');

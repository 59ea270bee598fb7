import { runReference } from './run-reference.ts';

runReference('./individuals-chart.json');

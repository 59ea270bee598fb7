import { runReference } from './run-reference.ts';

runReference('./cusum-chart.json');

import { runReference } from './run-reference.ts';

runReference('./ewma-chart.json');

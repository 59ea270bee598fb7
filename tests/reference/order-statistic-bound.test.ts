import { runReference } from './run-reference.ts';

runReference('./order-statistic-bound.json');

import { runReference } from './run-reference.ts';

runReference('./kruskal-wallis.json');

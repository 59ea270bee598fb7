import { runReference } from './run-reference.ts';

runReference('./shapiro-wilk.json');

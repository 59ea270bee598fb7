import { runReference } from './run-reference.ts';

runReference('./mann-whitney.json');

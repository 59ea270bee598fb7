import { runReference } from './run-reference.ts';

runReference('./lumped-heating.json');

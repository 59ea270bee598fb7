import { runReference } from './run-reference.ts';

runReference('./welch.json');

import { runReference } from './run-reference.ts';

runReference('./gehan-test.json');

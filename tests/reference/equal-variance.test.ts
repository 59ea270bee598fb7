import { runReference } from './run-reference.ts';

runReference('./equal-variance.json');

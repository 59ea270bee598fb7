import { runReference } from './run-reference.ts';

runReference('./lower-tolerance-bound.json');

import { runReference } from './run-reference.ts';

runReference('./outlier-screen.json');

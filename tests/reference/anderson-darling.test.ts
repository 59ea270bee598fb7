import { runReference } from './run-reference.ts';

runReference('./anderson-darling.json');

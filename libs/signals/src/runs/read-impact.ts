import { type ImpactMethod } from '@breakbook/lab';
import { type ReadRun, type RunInput } from './run-input.js';

export function readImpactRun(method: ImpactMethod, _input: RunInput): ReadRun {
  throw new Error(`readRun: runs of a ${method.test} method are not read here`);
}

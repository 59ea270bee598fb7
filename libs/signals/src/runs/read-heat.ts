import { type HeatMethod } from '@breakbook/lab';
import { type ReadWith } from './run-file.js';
import { type ReadRun, type RunInput } from './run-input.js';
export function readHeatRun(method: HeatMethod, _input: RunInput, _using: ReadWith): ReadRun {
  throw new Error(`readRun: runs of a ${method.test} method are not read here`);
}

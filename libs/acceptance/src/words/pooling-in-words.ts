import { type Pooling } from '@breakbook/lab';
import { counted } from './counted.js';
import { percent } from './percent.js';

/** Whether and how earlier lots enter a bound, as the plan declared it. */
export function poolingInWords(pooling: Pooling): string {
  if (pooling === 'none') return 'none';
  return `up to ${counted(pooling.lots, 'earlier lot')} of the same method revision, where the ${pooling.test} test does not tell them apart at the ${percent(pooling.level)} level; a shift of the mean by ${percent(pooling.shiftThatMatters)} would matter`;
}

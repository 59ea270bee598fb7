import { z } from 'zod';
import { kruskalWallis } from '../../hypotheses/kruskal-wallis.js';
import { Groups } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const kruskalWallisMethod = defineMethod({
  method: 'kruskal-wallis',
  question: 'Do some of these groups tend to hold larger values than others, whatever the distribution?',
  inputs: z.strictObject({ groups: Groups }),
  result: {
    statistic: 'no unit, corrected for ties',
    df: 'groups - 1',
    p: 'chance of a statistic as large where all groups come from one distribution, a fraction',
    n: 'number of values in all groups',
    groups: 'number of groups',
  },
  assumptions: ['values are independent', 'p is approximate where a group has fewer than 5 values'],
  source: 'Kruskal and Wallis (1952), J. Amer. Statist. Assoc. 47, 583-621',
  run: ({ groups }) => kruskalWallis(groups),
});

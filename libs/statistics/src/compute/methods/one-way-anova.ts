import { z } from 'zod';
import { oneWayAnova } from '../../description/one-way-anova.js';
import { Groups } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const oneWayAnovaMethod = defineMethod({
  method: 'one-way-anova',
  question: 'Do the means of these groups differ by more than the scatter within the groups explains?',
  inputs: z.strictObject({ groups: Groups }),
  result: {
    n: 'number of values in all groups',
    groups: 'number of groups',
    between: 'degrees of freedom df, sum of squares ss and mean square ms between groups; unit of the values, squared',
    within: 'the same within groups',
    f: 'between.ms / within.ms',
    p: 'chance of an f as large where all groups have one mean, a fraction',
    rSquared: 'share of all squares that lies between groups, a fraction',
    residualSd: 'standard deviation within groups, unit of the values',
  },
  assumptions: ['values are independent and normal', 'all groups have the same scatter'],
  source: 'NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.4',
  run: ({ groups }) => oneWayAnova(groups),
});

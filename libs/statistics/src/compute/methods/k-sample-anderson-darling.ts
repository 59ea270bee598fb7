import { z } from 'zod';
import { kSampleAndersonDarling } from '../../hypotheses/k-sample-anderson-darling.js';
import { Alpha, Groups } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const kSampleAndersonDarlingMethod = defineMethod({
  method: 'k-sample-anderson-darling',
  question: 'Could these groups come from one population, whatever its distribution?',
  inputs: z.strictObject({
    groups: Groups,
    alpha: Alpha.optional().describe(`${Alpha.description}; 0.05 if left out`),
  }),
  result: {
    statistic: 'raw / (groups - 1), near 1 where the groups are alike',
    raw: 'the sum over all groups, values shared by midranks',
    standardised: 'raw less its mean, divided by its standard deviation for groups of these sizes',
    critical: 'on the scale of statistic, at alpha',
    criticalFrom: 'published formula (alpha 0.25, 0.1, 0.05, 0.025, 0.01) or limiting distribution (any other)',
    p: 'chance of a statistic as large where all groups come from one population, a fraction',
    same: 'true where statistic is no larger than critical',
    n: 'number of values in all groups',
    groups: 'number of groups',
    alpha: 'as given, a fraction',
  },
  assumptions: ['values are independent', 'approximate where a group has fewer than 5 values'],
  source:
    'Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924; MIL-HDBK-17-1F (2002), volume 1, section 8.3.2.2',
  run: ({ groups, alpha }) => kSampleAndersonDarling(groups, alpha),
});

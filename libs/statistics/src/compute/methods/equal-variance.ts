import { z } from 'zod';
import { bartlettTest, equalVariance } from '../../hypotheses/equal-variance.js';
import { Groups } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const equalVarianceMethod = defineMethod({
  method: 'equal-variance',
  question: 'Do these groups scatter alike?',
  inputs: z
    .strictObject({
      groups: Groups,
      centre: z
        .enum(['median', 'mean'])
        .optional()
        .describe('what distances are taken from: median (Brown-Forsythe, taken if left out) or mean (Levene)'),
      bartlett: z.boolean().optional().describe('true for the test of Bartlett in their place, for normal values only'),
    })
    .superRefine(({ centre, bartlett }, context) => {
      if (bartlett === true && centre !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['centre'],
          message: 'the test of Bartlett takes no centre; give centre or bartlett, not both',
          params: { code: 'body.unknown-field' },
        });
    }),
  result: {
    statistic: 'no unit',
    df: 'degrees of freedom [between, within]; one number for Bartlett',
    p: 'chance of a statistic as large where all groups have one scatter, a fraction',
    groups: 'number of groups',
  },
  assumptions: ['values are independent', 'Bartlett: values are normal, and it is misled where they are not'],
  source:
    'Brown and Forsythe (1974), J. Amer. Statist. Assoc. 69, 364-367; Levene (1960); Bartlett (1937), Proc. R. Soc. Lond. A 160, 268-282',
  run: ({ groups, centre, bartlett }) => (bartlett === true ? bartlettTest(groups) : equalVariance(groups, centre)),
});

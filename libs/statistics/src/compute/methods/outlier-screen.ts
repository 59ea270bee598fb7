import { isNotEvaluated } from '@breakbook/lab';
import { z } from 'zod';
import { criticalNormedResidual, outlierScreen } from '../../hypotheses/outlier-screen.js';
import { Alpha, List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const outlierScreenMethod = defineMethod({
  method: 'outlier-screen',
  question: 'Does one value lie farther from the others than normal scatter explains?',
  inputs: z
    .strictObject({
      values: List.optional().describe('at least 3 numbers in any one unit'),
      n: z
        .number()
        .int()
        .min(0)
        .max(1_000_000)
        .optional()
        .describe('how many values, in their place: only the critical value is then the answer'),
      alpha: Alpha,
      side: z.enum(['lower', 'upper', 'both']).describe('which end is screened'),
    })
    .superRefine(({ values, n }, context) => {
      if (values === undefined && n === undefined)
        context.addIssue({
          code: 'custom',
          path: ['values'],
          message: 'values, or n in their place, are needed here and neither was found',
          params: { code: 'body.missing-field' },
        });
      if (values !== undefined && n !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['n'],
          message: 'n stands in place of values; give one of the two',
          params: { code: 'body.unknown-field' },
        });
    })
    .meta({ oneOf: [{ required: ['values'] }, { required: ['n'] }] }),
  result: {
    statistic: 'farthest deviation from the mean, in standard deviations of the sample',
    critical: 'a normal sample exceeds it with a chance of at most alpha',
    index: 'which value lies farthest, counted from 0',
    outlier: 'true where statistic exceeds critical',
    n: 'number of values',
    alpha: 'as given, a fraction',
    side: 'as given',
  },
  assumptions: [
    'the other values are independent and normal',
    'one value at most lies apart: two together hide each other',
    'a value called out is looked into; no value is left out of a claim for this alone',
  ],
  source: 'Grubbs (1969), Technometrics 11, 1-21; MIL-HDBK-17-1F (2002), volume 1, section 8.3.3',
  run({ values, n, alpha, side }) {
    if (values !== undefined) return outlierScreen(values, alpha, side);
    if (n === undefined) throw new Error('the inputs schema lets neither values nor n be missing');
    const critical = criticalNormedResidual(n, alpha, side);
    return isNotEvaluated(critical) ? critical : { method: 'maximum normed residual', n, alpha, side, critical };
  },
});

import { z } from 'zod';
import { andersonDarling } from '../../hypotheses/anderson-darling.js';
import { AnySample, checkSample, SAMPLE, Values } from '../inputs.js';
import { defineMethod } from '../method.js';

export const andersonDarlingMethod = defineMethod({
  method: 'anderson-darling',
  question: 'Do these values look as if they came from this distribution?',
  inputs: z
    .strictObject({
      values: Values.optional().describe(`at least 5 ${Values.description}`),
      sample: AnySample.optional().describe(`in place of values; not evaluated unless all are exact. ${SAMPLE}`),
      distribution: z.enum(['normal', 'lognormal', 'weibull']).describe('the distribution that is doubted'),
    })
    .superRefine(({ values, sample, distribution }, context) => {
      if (values === undefined && sample === undefined)
        context.addIssue({
          code: 'custom',
          path: ['values'],
          message: 'values, or sample in their place, are needed here and neither was found',
          params: { code: 'body.missing-field' },
        });
      if (values !== undefined && sample !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['sample'],
          message: 'sample stands in place of values; give one of the two',
          params: { code: 'body.unknown-field' },
        });
      const positive = distribution !== 'normal';
      if (sample !== undefined) checkSample(sample, ['sample'], context, { positive });
      for (const [index, value] of (values ?? []).entries())
        if (positive && !(value > 0))
          context.addIssue({
            code: 'custom',
            path: ['values', index],
            message: `a strength here must be above 0; got ${value}`,
            params: { code: 'body.range' },
          });
    })
    .meta({ oneOf: [{ required: ['values'] }, { required: ['sample'] }] }),
  result: {
    statistic: 'no unit',
    adjusted: 'the statistic adjusted for the number of values, no unit',
    significance: 'observed significance level, a fraction; 0.05 or less doubts the distribution',
    n: 'number of values',
  },
  assumptions: [
    'values are independent and drawn at random',
    'both parameters are estimated from these values; all of them are known exactly',
    'a good fit of few values says little: no bound becomes exact by it',
  ],
  source: 'MIL-HDBK-17-1F (2002), volume 1, section 8.3.4; Stephens (1974), J. Amer. Statist. Assoc. 69, 730-737',
  run: ({ values, sample, distribution }) => andersonDarling(sample ?? { exact: values ?? [] }, distribution),
});

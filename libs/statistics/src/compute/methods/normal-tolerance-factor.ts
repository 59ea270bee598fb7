import { z } from 'zod';
import { normalToleranceConfidence, normalToleranceFactor } from '../../bounds/normal-tolerance-factor.js';
import { Confidence, Coverage } from '../inputs.js';
import { defineMethod } from '../method.js';

export const normalToleranceFactorMethod = defineMethod({
  method: 'normal-tolerance-factor',
  question:
    'How many standard deviations from the mean must a bound lie to hold this share of a normal population, with this confidence?',
  inputs: z
    .strictObject({
      n: z.number().int().min(2).max(1_000_000).describe('values in the sample'),
      coverage: Coverage,
      confidence: Confidence.optional().describe('a fraction between 0 and 1; left out where k is given'),
      k: z
        .number()
        .min(-1e6)
        .max(1e6)
        .optional()
        .describe('standard deviations between mean and bound, in place of confidence, which is then the answer'),
      sides: z
        .literal([1, 2])
        .optional()
        .describe('1: a bound on one side (taken if left out); 2: an interval of mean - k s to mean + k s'),
    })
    .superRefine(({ confidence, k }, context) => {
      if (confidence === undefined && k === undefined)
        context.addIssue({
          code: 'custom',
          path: ['confidence'],
          message: 'confidence, or k in its place, is needed here and neither was found',
          params: { code: 'body.missing-field' },
        });
      if (confidence !== undefined && k !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['k'],
          message: 'k stands in place of confidence; give one of the two',
          params: { code: 'body.unknown-field' },
        });
    })
    .meta({ oneOf: [{ required: ['confidence'] }, { required: ['k'] }] }),
  result: {
    k: 'standard deviations between mean and bound, no unit',
    confidence: 'a fraction; the answer where k was given',
  },
  assumptions: ['values are independent, drawn at random and normal; mean and scatter both unknown'],
  source: 'Owen (1963), Sandia SCR-607; ISO 16269-6:2014; Krishnamoorthy and Mathew (2009), section 2.3',
  run({ n, coverage, confidence, k, sides = 1 }) {
    if (k !== undefined) return normalToleranceConfidence({ n, coverage, k, sides });
    if (confidence === undefined) throw new Error('the inputs schema lets neither confidence nor k be missing');
    return normalToleranceFactor({ n, coverage, confidence, sides });
  },
});

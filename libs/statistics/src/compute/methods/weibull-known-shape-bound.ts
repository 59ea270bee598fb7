import { Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { weibullKnownShapeBound } from '../../bounds/weibull-known-shape-bound.js';
import { AnySample, Confidence, checkSample } from '../inputs.js';
import { defineMethod } from '../method.js';

export const weibullKnownShapeBoundMethod = defineMethod({
  method: 'weibull-known-shape-bound',
  question: 'How strong is a Weibull population at least, when its shape is known beforehand?',
  inputs: z
    .strictObject({
      sample: AnySample,
      shape: z.number().min(1e-3).max(1e4).describe('known from earlier tests, no unit'),
      confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
      quantiles: z.array(Fraction).optional().describe('shares failing at which a lower bound is asked for, fractions'),
    })
    .superRefine(({ sample }, context) => checkSample(sample, ['sample'], context, { positive: true })),
  result: {
    n: 'number of specimens',
    failures: 'number that broke',
    scale: 'by maximum likelihood, unit of the sample; not evaluated where none broke',
    scaleLower: 'the scale is at least this, unit of the sample',
    quantiles:
      'for each fraction: lower, the strength that all but this share exceed is at least this, unit of the sample',
    assumptions: 'what the bound rests on, in sentences',
  },
  assumptions: [
    'strength follows a two-parameter Weibull distribution whose shape is known and not learned from this sample',
    'specimens are independent and drawn at random',
    'what ended a test early had nothing to do with how much more the specimen would have held',
  ],
  source: 'Nelson (1985), J. Qual. Technol. 17, 140-146',
  run: ({ sample, ...question }) => weibullKnownShapeBound(sample, question),
});

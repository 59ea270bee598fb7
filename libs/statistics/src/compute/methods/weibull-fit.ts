import { Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { fitWeibull, weibullLogLikelihood } from '../../fits/weibull-fit.js';
import { AnySample, Confidence, checkSample, countOf } from '../inputs.js';
import { defineMethod } from '../method.js';

export const weibullFitMethod = defineMethod({
  method: 'weibull-fit',
  question: 'Which Weibull distribution explains these strengths best, and how surely?',
  inputs: z
    .strictObject({
      sample: AnySample,
      confidence: Confidence.optional().describe(
        'two-sided for limits, one-sided for lower; a fraction, 0.95 if left out',
      ),
      quantiles: z.array(Fraction).optional().describe('shares failing at which the strength is asked for, fractions'),
      at: z
        .array(z.number().positive())
        .optional()
        .describe('strengths at which the share surviving is asked for, in the unit of the sample'),
      fixed: z
        .strictObject({ shape: z.number().positive(), scale: z.number().positive() })
        .optional()
        .describe('one Weibull distribution, whose log-likelihood alone is asked for; scale in the unit of the sample'),
    })
    .superRefine(({ sample }, context) => checkSample(sample, ['sample'], context, { positive: true })),
  result: {
    n: 'number of specimens',
    failures: 'number that broke: exact, at most and between',
    shape: 'no unit',
    scale: 'strength at which 63.2 % have failed, unit of the sample',
    logLikelihood: 'natural logarithm, of strengths in the unit of the sample',
    aic: '4 - 2 logLikelihood',
    standardErrors: 'of shape, scale (unit of the sample), logShape and logScale, from the observed information',
    'covariance.logScaleLogShape': 'no unit',
    limits: 'of shape and scale, two-sided, by profile likelihood',
    quantiles:
      'for each fraction: value, limits and lower (profile likelihood), waldLimits (log scale), unit of the sample',
    reliability: 'for each strength: share surviving as value, limits and lower (profile likelihood), fractions',
  },
  assumptions: [
    'specimens are independent and drawn at random',
    'strength follows a two-parameter Weibull distribution',
    'what ended a test early had nothing to do with how much more the specimen would have held',
    'profile limits are too bold in small samples: no acceptance rests on them',
  ],
  source: 'Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 5.1 and 5.2',
  run({ sample, confidence, quantiles, at, fixed }) {
    if (fixed === undefined)
      return fitWeibull(sample, {
        ...(confidence === undefined ? {} : { confidence }),
        ...(quantiles === undefined ? {} : { quantiles }),
        ...(at === undefined ? {} : { at }),
      });
    const n = countOf(sample);
    const failures = n - (sample.atLeast?.length ?? 0);
    return {
      method: 'Weibull log-likelihood',
      n,
      failures,
      ...fixed,
      logLikelihood: weibullLogLikelihood(sample, fixed),
    };
  },
});

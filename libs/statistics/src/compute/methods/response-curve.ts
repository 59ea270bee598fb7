import { Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { responseCurve } from '../../regression/response-curve.js';
import { Confidence } from '../inputs.js';
import { Finite } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

const Count = z.number().int().min(0).max(1_000_000);

export const responseCurveMethod = defineMethod({
  method: 'response-curve',
  question: 'What share of a population breaks at a level, and at what level does half of it break?',
  inputs: z
    .strictObject({
      trials: z
        .array(z.strictObject({ level: Finite, tested: Count, broke: Count }))
        .max(10_000)
        .describe('level in any one unit, specimens struck once at it, and how many of them broke'),
      link: z.enum(['probit', 'logit']).describe('form of the curve: normal or logistic'),
      confidence: Confidence.describe('two-sided, of the limits; a fraction'),
      quantiles: z
        .array(Fraction)
        .max(100)
        .optional()
        .describe('shares breaking at which the level is asked for, fractions'),
    })
    .superRefine(({ trials }, context) => {
      for (const [index, { tested, broke }] of trials.entries())
        if (broke > tested)
          context.addIssue({
            code: 'custom',
            path: ['trials', index, 'broke'],
            message: `${broke} of ${tested} specimens cannot have broken`,
            params: { code: 'body.range' },
          });
    }),
  result: {
    intercept: 'of the predictor intercept + slope level, no unit',
    slope: 'per unit of the level',
    standardErrors: 'of intercept, slope and median, by the expected information',
    median: 'level at which half of the population breaks, unit of the levels',
    medianLimits: 'by profile likelihood (profile) and by Fieller (fieller), unit of the levels',
    quantiles: 'for each fraction: value and limits as those of the median, unit of the levels',
    deviance: 'twice the log-likelihood that a share of its own for each row gains over the curve',
    logLikelihood: 'natural logarithm, binomial coefficients left out',
    separation: 'none, complete or quasi-complete: whether levels part what broke from what held',
    separatedBetween: 'the levels between which the median then lies, unit of the levels',
    direction: 'rising where what broke was struck higher, falling otherwise',
    tested: 'number of specimens',
    broke: 'how many of them broke',
    link: 'as given',
    confidence: 'as given, a fraction',
  },
  assumptions: [
    'specimens are independent and drawn at random, each struck once',
    'profile limits rest on large samples; with few specimens near the median they are somewhat too bold',
  ],
  source:
    'Finney (1971), Probit Analysis, 3rd ed.; Fieller (1954), J. R. Statist. Soc. B 16, 175-185; Albert and Anderson (1984), Biometrika 71, 1-10',
  run: ({ trials, link, confidence, quantiles }) => responseCurve(trials, { link, confidence, quantiles }),
});

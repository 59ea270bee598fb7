import { Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { AnySample, Confidence, checkSample } from './inputs.js';

/** What every fit is asked: a sample, and at which shares and strengths more is wanted than the parameters. */
const shared = {
  sample: AnySample,
  confidence: Confidence.optional().describe('two-sided for limits, one-sided for lower; a fraction, 0.95 if left out'),
  quantiles: z.array(Fraction).optional().describe('shares failing at which the strength is asked for, fractions'),
};

/** The inputs of a fit of strengths above 0, with one distribution's parameters as `fixed`. */
export function inputsOfPositiveFit<Fixed extends z.ZodType>(fixed: Fixed) {
  const at = z
    .array(z.number().positive())
    .optional()
    .describe('strengths at which the share surviving is asked for, in the unit of the sample');
  return z
    .strictObject({ ...shared, at, fixed })
    .superRefine(({ sample }, context) => checkSample(sample, ['sample'], context, { positive: true }));
}

/** The same where any finite number is a possible strength. */
export function inputsOfPlainFit<Fixed extends z.ZodType>(fixed: Fixed) {
  const at = z
    .array(z.number().min(-1e100).max(1e100))
    .optional()
    .describe('strengths at which the share surviving is asked for, in the unit of the sample');
  return z
    .strictObject({ ...shared, at, fixed })
    .superRefine(({ sample }, context) => checkSample(sample, ['sample'], context, { positive: false }));
}

/** What every fit gives beside its parameters. */
export const RESULT_OF_FIT = {
  n: 'number of specimens',
  failures: 'number that broke: exact, at most and between',
  logLikelihood: 'natural logarithm, of strengths in the unit of the sample',
  aic: '4 - 2 logLikelihood',
  reliability: 'for each strength: share surviving as value, limits and lower (profile likelihood), fractions',
  withoutSurvivors:
    'the estimates with every strength known as "at least" left out, for comparison only: leaving them out throws away what the strongest have shown; stands only where there are such strengths',
};

export const ASSUMPTIONS_OF_FIT = [
  'specimens are independent and drawn at random',
  'what ended a test early had nothing to do with how much more the specimen would have held',
  'profile limits are too bold in small samples: no acceptance rests on them',
];

export const SOURCE_OF_FIT =
  'Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., sections 5.1 to 5.3';

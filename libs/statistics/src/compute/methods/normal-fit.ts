import { z } from 'zod';
import { estimateNormal, fitNormal, normalLogLikelihood } from '../../fits/normal-fit.js';
import { countOf, failuresOf } from '../inputs.js';
import { ASSUMPTIONS_OF_FIT, inputsOfPlainFit, RESULT_OF_FIT, SOURCE_OF_FIT } from '../inputs-of-fits.js';
import { defineMethod } from '../method.js';
import { besideWithoutSurvivors } from '../without-survivors.js';

export const normalFitMethod = defineMethod({
  method: 'normal-fit',
  question: 'Which normal distribution explains these strengths best, and how surely?',
  inputs: inputsOfPlainFit(
    z
      .strictObject({ mean: z.number().min(-1e100).max(1e100), sd: z.number().positive() })
      .optional()
      .describe('one normal distribution, whose log-likelihood alone is asked for; both in the unit of the sample'),
  ),
  result: {
    ...RESULT_OF_FIT,
    mean: 'unit of the sample',
    sd: 'of maximum likelihood (divisor n for a complete sample), unit of the sample',
    standardErrors: 'of mean, sd (unit of the sample) and logSd, from the observed information',
    'covariance.meanLogSd': 'unit of the sample',
    limits: 'of mean and sd, two-sided, by profile likelihood',
    quantiles:
      'for each fraction: value, limits and lower (profile likelihood), waldLimits (plain scale), unit of the sample',
  },
  assumptions: [...ASSUMPTIONS_OF_FIT, 'strength is normal'],
  source: SOURCE_OF_FIT,
  run({ sample, fixed, ...options }) {
    if (fixed === undefined) return besideWithoutSurvivors(fitNormal(sample, options), sample, estimateNormal);
    return {
      method: 'normal log-likelihood',
      n: countOf(sample),
      failures: failuresOf(sample),
      ...fixed,
      logLikelihood: normalLogLikelihood(sample, fixed),
    };
  },
});

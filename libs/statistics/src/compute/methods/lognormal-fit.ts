import { z } from 'zod';
import { estimateLognormal, fitLognormal, lognormalLogLikelihood } from '../../fits/lognormal-fit.js';
import { countOf, failuresOf } from '../inputs.js';
import { ASSUMPTIONS_OF_FIT, inputsOfPositiveFit, RESULT_OF_FIT, SOURCE_OF_FIT } from '../inputs-of-fits.js';
import { defineMethod } from '../method.js';
import { besideWithoutSurvivors } from '../without-survivors.js';

export const lognormalFitMethod = defineMethod({
  method: 'lognormal-fit',
  question: 'Which lognormal distribution explains these strengths best, and how surely?',
  inputs: inputsOfPositiveFit(
    z
      .strictObject({ logMean: z.number().min(-1e4).max(1e4), logSd: z.number().positive() })
      .optional()
      .describe('one lognormal distribution, whose log-likelihood alone is asked for; of ln strength, no unit'),
  ),
  result: {
    ...RESULT_OF_FIT,
    logMean: 'mean of ln strength, strength in the unit of the sample',
    logSd: 'standard deviation of ln strength by maximum likelihood (divisor n for a complete sample), no unit',
    standardErrors: 'of logMean, logSd and lnLogSd (the natural logarithm of logSd), from the observed information',
    'covariance.logMeanLnLogSd': 'no unit',
    limits: 'of logMean and logSd, two-sided, by profile likelihood',
    quantiles:
      'for each fraction: value, limits and lower (profile likelihood), waldLimits (log scale), unit of the sample',
  },
  assumptions: [...ASSUMPTIONS_OF_FIT, 'the logarithm of strength is normal'],
  source: SOURCE_OF_FIT,
  run({ sample, fixed, ...options }) {
    if (fixed === undefined) return besideWithoutSurvivors(fitLognormal(sample, options), sample, estimateLognormal);
    return {
      method: 'lognormal log-likelihood',
      n: countOf(sample),
      failures: failuresOf(sample),
      ...fixed,
      logLikelihood: lognormalLogLikelihood(sample, fixed),
    };
  },
});

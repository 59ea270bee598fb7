import { z } from 'zod';
import { estimateWeibull, fitWeibull, weibullLogLikelihood } from '../../fits/weibull-fit.js';
import { countOf, failuresOf } from '../inputs.js';
import { ASSUMPTIONS_OF_FIT, inputsOfPositiveFit, RESULT_OF_FIT, SOURCE_OF_FIT } from '../inputs-of-fits.js';
import { defineMethod } from '../method.js';
import { besideWithoutSurvivors } from '../without-survivors.js';

export const weibullFitMethod = defineMethod({
  method: 'weibull-fit',
  question: 'Which Weibull distribution explains these strengths best, and how surely?',
  inputs: inputsOfPositiveFit(
    z
      .strictObject({ shape: z.number().positive(), scale: z.number().positive() })
      .optional()
      .describe('one Weibull distribution, whose log-likelihood alone is asked for; scale in the unit of the sample'),
  ),
  result: {
    ...RESULT_OF_FIT,
    shape: 'no unit',
    scale: 'strength at which 63.2 % have failed, unit of the sample',
    standardErrors: 'of shape, scale (unit of the sample), logShape and logScale, from the observed information',
    'covariance.logScaleLogShape': 'no unit',
    limits: 'of shape and scale, two-sided, by profile likelihood',
    quantiles:
      'for each fraction: value, limits and lower (profile likelihood), waldLimits (log scale), unit of the sample',
  },
  assumptions: [...ASSUMPTIONS_OF_FIT, 'strength follows a two-parameter Weibull distribution'],
  source: SOURCE_OF_FIT,
  run({ sample, fixed, ...options }) {
    if (fixed === undefined) return besideWithoutSurvivors(fitWeibull(sample, options), sample, estimateWeibull);
    return {
      method: 'Weibull log-likelihood',
      n: countOf(sample),
      failures: failuresOf(sample),
      ...fixed,
      logLikelihood: weibullLogLikelihood(sample, fixed),
    };
  },
});

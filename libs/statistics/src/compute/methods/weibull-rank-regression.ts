import { z } from 'zod';
import { weibullRankRegression } from '../../plotting/weibull-rank-regression.js';
import { AnySample, checkSample } from '../inputs.js';
import { defineMethod } from '../method.js';

export const weibullRankRegressionMethod = defineMethod({
  method: 'weibull-rank-regression',
  question: 'Which straight line lies nearest to the points of a Weibull plot?',
  inputs: z
    .strictObject({
      sample: AnySample,
      positions: z.enum(['exact', 'benard']).describe('median ranks, exact or by Benard'),
      of: z
        .enum(['value-on-rank', 'rank-on-value'])
        .describe('which of the two is taken to scatter about the line: the value given the rank, or the rank'),
    })
    .superRefine(({ sample }, context) => checkSample(sample, ['sample'], context, { positive: true })),
  result: {
    shape: 'no unit',
    scale: 'strength at which 63.2 % have failed, unit of the sample',
    rSquared: 'square of the correlation of the points, a fraction',
    n: 'number of specimens',
    failures: 'number that broke',
  },
  assumptions: [
    'strength follows a two-parameter Weibull distribution',
    'specimens withdrawn would have broken at the same ranks as those that stayed',
    'for drawing and comparison only: no claim rests on it',
  ],
  source: 'Abernethy et al. (1983), AFWAL-TR-83-2079; adjusted ranks Johnson (1964)',
  run: ({ sample, ...how }) => weibullRankRegression(sample, how),
});

import { z } from 'zod';
import { weibullComparison } from '../../hypotheses/weibull-comparison.js';
import { AnySample, checkSample } from '../inputs.js';
import { defineMethod } from '../method.js';

const RATIO = 'statistic, df and p (chance of a statistic as large where the narrower model holds, a fraction)';

export const weibullComparisonMethod = defineMethod({
  method: 'weibull-comparison',
  question: 'Do two samples of strengths come from one Weibull distribution, or do they differ in shape or in scale?',
  inputs: z
    .strictObject({ a: AnySample, b: AnySample.describe('likewise, in the same unit') })
    .superRefine(({ a, b }, context) => {
      checkSample(a, ['a'], context, { positive: true });
      checkSample(b, ['b'], context, { positive: true });
    }),
  result: {
    separate: 'the fit of each sample by itself (as weibull-fit, without limits)',
    'commonShape.shape': 'the shape that suits both best, no unit',
    'commonShape.scales': 'the scale of each under it, unit of the samples',
    'commonShape.logLikelihood': 'of both samples together',
    common: 'the fit of both samples as one',
    equalShape: `one shape against separate fits: ${RATIO}`,
    equalScaleGivenShape: `one scale as well, against one shape alone: ${RATIO}`,
    equalBoth: `one shape and scale against separate fits: ${RATIO}`,
  },
  assumptions: [
    'specimens are independent and strength follows a Weibull distribution in each group',
    'what ended a test early had nothing to do with how much more the specimen would have held',
    'p is approximate and too small in small samples: a nominal 5 % is about 10 % at 5 specimens each, 7 % at 10',
  ],
  source: 'Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., section 5.4',
  run: ({ a, b }) => weibullComparison(a, b),
});

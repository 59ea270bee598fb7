import { z } from 'zod';
import { predictionBound } from '../../prediction/prediction-bound.js';
import { Confidence } from '../inputs.js';
import { basisInputs, basisOf, checkBasis, Declared, FutureUnits } from '../inputs-of-prediction.js';
import { defineMethod } from '../method.js';

export const predictionBoundMethod = defineMethod({
  method: 'prediction-bound',
  question: 'What strength will the next unit, each of the next m units, or their mean exceed, with this confidence?',
  inputs: z
    .strictObject({
      ...basisInputs,
      distribution: Declared,
      confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
      m: FutureUnits.optional().describe('how many future units; 1 if left out'),
      of: z
        .enum(['one', 'all', 'mean'])
        .describe('what lies above the bound: any one of the m units, all of them, or their mean'),
    })
    .superRefine((given, context) => checkBasis(given, given.distribution, context)),
  result: {
    bound: 'unit of the strengths',
    factor: 'standard deviations below the mean (normal; of ln strength if lognormal), no unit',
    rank: 'which strength from the weakest (distribution-free)',
    achievedConfidence: 'the confidence really reached, a fraction',
    n: 'number of units tested',
    m: 'number of future units',
    of: 'as given',
    distribution: 'as given',
    confidence: 'as given, a fraction',
  },
  assumptions: [
    'past and future units are drawn at random from one population',
    'normal and lognormal: complete samples; Weibull: complete samples and tests that ended at the last break',
    'it speaks of the units named, not of the whole population: that is a tolerance bound',
  ],
  source:
    'Hahn and Meeker (1991), Statistical Intervals, chapters 4 and 5; Hahn (1970), Technometrics 12, 667-676; Lawless (1973), Technometrics 15, 857-865',
  run: ({ distribution, confidence, m, of, ...given }) =>
    predictionBound({ basis: basisOf(given), distribution, confidence, m: m ?? 1, of }),
});

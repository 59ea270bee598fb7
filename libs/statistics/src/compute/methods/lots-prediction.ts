import { z } from 'zod';
import { lotsPrediction } from '../../prediction/lots/lots-prediction.js';
import { Confidence, refuseInput } from '../inputs.js';
import { List, Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

/** So many values and items are simulated in a few seconds. */
const MOST = 300;

export const lotsPredictionMethod = defineMethod({
  method: 'lots-prediction',
  question: 'Between what do future units keep that come from lots of their own, where lots of one product may differ?',
  inputs: z
    .strictObject({
      lots: z
        .array(List.max(MOST))
        .max(100)
        .describe('one list of values for each lot, all in one unit; at least 3 lots, or one list for one population'),
      distribution: z.enum(['normal', 'lognormal', 'weibull']).describe('of units about the mean of their lot'),
      items: z.number().int().min(1).max(MOST).describe('how many future units'),
      of: z
        .enum(['each', 'mean'])
        .describe('each: all of them keep within, each from a lot of its own; mean: the mean of units of one lot'),
      side: z.enum(['below', 'above', 'either']).describe('on which side a unit may not lie'),
      confidence: Confidence.describe('of all items, and of both sides together; a fraction'),
      seed: Seed.refine((seed) => seed !== 0, {
        error: 'is 1 or more',
        params: { code: 'body.range' },
      }).describe('starts the simulation; 1 if left out'),
    })
    .superRefine(({ lots, distribution }, context) => {
      if (lots.flat().length > MOST)
        refuseInput(context, ['lots'], 'body.range', `${lots.flat().length} values are given, and ${MOST} is the most`);
      if (distribution === 'normal') return;
      for (const [lot, values] of lots.entries())
        for (const [index, value] of values.entries())
          if (value <= 0)
            refuseInput(
              context,
              ['lots', lot, index],
              'body.range',
              `a ${distribution} value is above 0; got ${value}`,
            );
    }),
  result: {
    lower: 'bound below, unit of the values; left out where only above is asked',
    upper: 'bound above, unit of the values; left out where only below is asked',
    n: 'number of values',
    lots: 'number of lots',
    centre: 'mean of the lot means, unit of the values (of ln values unless normal)',
    between: 'variance of the lot means',
    within: 'mean square within lots',
    variance: 'of a future value, or mean, about the centre',
    degrees: 'degrees of freedom of that variance',
    replicates: 'simulated comparisons for each share of variance between lots',
    seed: 'what they were drawn from',
    confidence: 'as given, a fraction',
  },
  assumptions: [
    'lots are drawn at random among those of the product, and units at random from each lot',
    'lot means are normal, with one scatter of units in all lots',
    'lognormal and Weibull: the same of ln values',
  ],
  source:
    'Searle, Casella and McCulloch (1992), Variance Components, chapter 3; Satterthwaite (1946), Biometrics Bulletin 2, 110-114; Davison and Hinkley (1997), Bootstrap Methods and their Application, section 4.2',
  run: (inputs) => lotsPrediction(inputs),
});

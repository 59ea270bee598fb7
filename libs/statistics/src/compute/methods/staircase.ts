import { z } from 'zod';
import { staircase } from '../../regression/staircase.js';
import { Above0, Finite } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const staircaseMethod = defineMethod({
  method: 'staircase',
  question:
    'At what level does half of a population break, when each specimen is struck one step lower after a break and one step higher after none?',
  inputs: z.strictObject({
    trials: z
      .array(z.strictObject({ level: Finite, broke: z.boolean() }))
      .max(100_000)
      .describe('in the order they were struck: level in any one unit, and whether the specimen broke'),
    step: Above0.describe('between levels, same unit'),
  }),
  result: {
    mean: 'level at which half of the population breaks, unit of the levels',
    sd: 'standard deviation of the breaking level, unit of the levels; a stand-in of 0.53 steps where valid is false',
    counted: 'failures or survivals: the rarer outcome, failures on a tie',
    n: 'how many of the counted outcome',
    a: 'sum of their steps above the lowest of them',
    b: 'sum of the squares of these',
    m: 'variance of these, (n b - a^2) / n^2',
    valid: 'true where m is at least 0.3, from which on sd is an estimate',
    nextLevel: 'where the staircase goes on, unit of the levels',
    departures: 'trials whose level does not follow from the one before, counted from 0',
  },
  assumptions: [
    'specimens are independent, each struck once; the breaking level is normal',
    'the step is near its standard deviation (half to twice)',
    'n is at least some 10; about 30 for sd',
  ],
  source: 'Dixon and Mood (1948), J. Amer. Statist. Assoc. 43, 109-126; ISO 12107:2012 (stand-in of sd)',
  run: ({ trials, step }) => staircase(trials, step),
});

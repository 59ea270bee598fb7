import { z } from 'zod';
import { anovaBound } from '../../bounds/anova-bound.js';
import { Confidence, Coverage } from '../inputs.js';
import { Groups } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const anovaBoundMethod = defineMethod({
  method: 'anova-bound',
  question: 'What strength does at least this share of a population exceed that comes in batches, when batches differ?',
  inputs: z.strictObject({
    groups: Groups,
    coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
    confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
  }),
  result: {
    bound: 'unit of the values',
    factor: 'standard deviations of the population between mean and bound, no unit',
    mean: 'of all values, in their unit',
    withinSd: 'standard deviation within batches, unit of the values',
    betweenSd: 'standard deviation between batches, unit of the values; 0 where chance alone explains their means',
    populationSd: 'both together; factor multiplies it; unit of the values',
    n: 'number of values in all batches',
    batches: 'number of batches',
  },
  assumptions: [
    'strength is normal in each batch with one scatter, and so are the means of batches',
    'batches are drawn at random from those the claim is about',
    'approximate; with fewer than five batches little is known of how batches differ',
  ],
  source:
    'Vangel (1992), Technometrics 34, 176-185; MIL-HDBK-17-1F, volume 1, section 8.3.5.2 (formula from memory, checked by ' +
    'its limits)',
  run: ({ groups, ...question }) => anovaBound(groups, question),
});

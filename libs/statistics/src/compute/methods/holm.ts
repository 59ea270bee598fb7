import { z } from 'zod';
import { holm } from '../../hypotheses/holm.js';
import { Alpha } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const holmMethod = defineMethod({
  method: 'holm',
  question: 'Which of several tests show a difference, if even one false alarm among them all is to be unlikely?',
  inputs: z.strictObject({
    p: z.array(z.number().min(0).max(1)).max(1_000_000).describe('p of each test, fractions'),
    alpha: Alpha.describe('chance of even one false alarm among all tests, a fraction between 0 and 1'),
  }),
  result: {
    adjusted: 'for each p, in the order given: the smallest alpha at which it is called out, fractions',
    rejected: 'for each p: true where adjusted is at most alpha',
    alpha: 'as given, a fraction',
  },
  assumptions: ['each p is valid by itself; how the tests depend on each other does not matter'],
  source: 'Holm (1979), Scand. J. Statist. 6, 65-70',
  run: ({ p, alpha }) => holm(p, alpha),
});

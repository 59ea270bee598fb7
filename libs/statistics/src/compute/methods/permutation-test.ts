import { z } from 'zod';
import { permutationTest } from '../../hypotheses/permutation-test.js';
import { List, Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

/** So many values are moved about in less than half a minute. */
const MOST_MOVES = 1e9;

export const permutationTestMethod = defineMethod({
  method: 'permutation-test',
  question: 'Could the difference between two groups come from chance alone, the values shared out to them at random?',
  inputs: z
    .strictObject({
      a: List.max(5000).describe('numbers in any one unit, 5000 at most'),
      b: List.max(5000).describe('numbers in the same unit, 5000 at most'),
      statistic: z
        .enum(['mean-difference', 'rank-sum'])
        .optional()
        .describe('what is compared; mean-difference if left out'),
      seed: Seed.describe('starts the random arrangements, drawn only where there are too many to look at each; 1'),
      replicates: z
        .number()
        .int()
        .min(1)
        .max(1_000_000)
        .optional()
        .describe('how many arrangements are then drawn; 99999 if left out'),
    })
    .superRefine(({ a, replicates }, context) => {
      if (a.length * (replicates ?? 1) > MOST_MOVES)
        context.addIssue({
          code: 'custom',
          path: ['replicates'],
          message: `${replicates} arrangements of ${a.length} values take too long; ask for ${Math.floor(MOST_MOVES / a.length)} at most`,
          params: { code: 'body.range' },
        });
    }),
  result: {
    difference: 'mean of a less mean of b, unit of the values',
    pTwoSided: 'share of arrangements at least as far from the middle, a fraction',
    pLess: 'share with a sum of a as small, a fraction',
    pGreater: 'share with a sum of a as large, a fraction',
    exact: 'true where every arrangement was looked at',
    arrangements: 'number of ways to share the values out',
    simulationError: 'standard error of pTwoSided where arrangements were drawn, a fraction',
    replicates: 'arrangements drawn, if any',
    seed: 'what they were drawn from, if any',
  },
  assumptions: ['which group a value fell into is a matter of chance, where there is no difference'],
  source:
    'Pitman (1937), Suppl. J. R. Statist. Soc. 4, 119-130; Phipson and Smyth (2010), Statist. Appl. Genet. Mol. Biol. 9, 39',
  run: ({ a, b, ...options }) => permutationTest(a, b, options),
});

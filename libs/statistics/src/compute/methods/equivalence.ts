import { z } from 'zod';
import { equivalence } from '../../hypotheses/equivalence.js';
import { Confidence } from '../inputs.js';
import { Finite, List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const equivalenceMethod = defineMethod({
  method: 'equivalence',
  question: 'Is the difference of two means surely within a margin declared beforehand?',
  inputs: z
    .strictObject({
      a: List.describe('at least 2 numbers in any one unit'),
      b: List.describe('at least 2 numbers in the same unit'),
      margin: z.tuple([Finite, Finite]).describe('[lo, hi] for mean of a less mean of b, unit of the values'),
      confidence: Confidence.describe(
        'two-sided, of the limits; each of the two tests is one-sided at (1 - confidence) / 2, so 0.9 gives tests at 5 %',
      ),
    })
    .superRefine(({ margin: [low, high] }, context) => {
      if (!(low < high))
        context.addIssue({
          code: 'custom',
          path: ['margin'],
          message: `a margin runs upward; got ${low} to ${high}`,
          params: { code: 'body.range' },
        });
    }),
  result: {
    difference: 'mean of a less mean of b, unit of the values',
    df: 'degrees of freedom (Welch)',
    limits: 'of the difference, unit of the values',
    pLower: 'chance of a difference so far above the lower margin, were it no higher, a fraction',
    pUpper: 'chance of a difference so far below the upper margin, were it no lower, a fraction',
    equivalent: 'true where limits lie within the margin, that is where both p are at most (1 - confidence) / 2',
    margin: 'as given',
    confidence: 'as given, a fraction',
  },
  assumptions: ['values are independent and normal', 'the margin was declared before the test'],
  source: 'Schuirmann (1987), J. Pharmacokinet. Biopharm. 15, 657-680; Welch (1947), Biometrika 34, 28-35',
  run: ({ a, b, margin, confidence }) => equivalence(a, b, margin, confidence),
});

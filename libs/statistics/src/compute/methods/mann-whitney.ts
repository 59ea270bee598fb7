import { z } from 'zod';
import { mannWhitney } from '../../hypotheses/mann-whitney.js';
import { Confidence } from '../inputs.js';
import { List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const mannWhitneyMethod = defineMethod({
  method: 'mann-whitney',
  question: 'Does one group tend to hold larger values than another, whatever the distribution, and by how much?',
  inputs: z.strictObject({
    a: List.max(2000).describe('numbers in any one unit, 2000 at most'),
    b: List.max(2000).describe('numbers in the same unit, 2000 at most'),
    confidence: Confidence.describe('two-sided, of the limits of the shift; a fraction'),
  }),
  result: {
    u: 'pairs with the value of a the larger, equal ones counting half',
    pTwoSided: 'a fraction',
    pLess: 'small where a tends to be less than b, a fraction',
    pGreater: 'small where a tends to be greater than b, a fraction',
    exact: 'true where p comes from the exact distribution; false with equal values or very large groups',
    'shift.estimate': 'median of all differences a - b, unit of the values',
    'shift.limits': 'two of the differences, unit of the values',
    'shift.achievedConfidence': 'what the limits really reach, a fraction; with equal values at least so much',
    confidence: 'as given, a fraction',
  },
  assumptions: [
    'values are independent',
    'for the shift: both distributions have the same form and scatter',
    'with equal values p is the normal approximation; permutation-test of the rank-sum is exact there',
  ],
  source:
    'Mann and Whitney (1947), Ann. Math. Statist. 18, 50-60; Hodges and Lehmann (1963), Ann. Math. Statist. 34, 598-611; Bauer (1972), J. Amer. Statist. Assoc. 67, 687-690',
  run: ({ a, b, confidence }) => mannWhitney(a, b, confidence),
});

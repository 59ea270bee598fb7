import { z } from 'zod';
import { varianceRatio } from '../../hypotheses/variance-ratio.js';
import { List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const varianceRatioMethod = defineMethod({
  method: 'variance-ratio',
  question: 'Do two groups of normal values scatter alike?',
  inputs: z.strictObject({
    a: List.describe('at least 2 numbers in any one unit'),
    b: List.describe('at least 2 numbers in the same unit'),
  }),
  result: {
    f: 'variance of a divided by that of b',
    df: 'degrees of freedom [a, b]',
    p: 'chance of a ratio as far from 1 in either direction where both scatter alike, a fraction',
  },
  assumptions: ['values are independent and normal; where they are not, the test is misled (see equal-variance)'],
  source: 'NIST/SEMATECH e-Handbook, section 1.3.5.9',
  run: ({ a, b }) => varianceRatio(a, b),
});

import { z } from 'zod';
import { welch } from '../../hypotheses/welch.js';
import { Confidence } from '../inputs.js';
import { List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const welchMethod = defineMethod({
  method: 'welch',
  question: 'Do the means of two groups differ, and by how much?',
  inputs: z.strictObject({
    a: List.describe('at least 2 numbers in any one unit'),
    b: List.describe('at least 2 numbers in the same unit'),
    confidence: Confidence.describe('two-sided, of the limits; a fraction'),
    pooled: z.boolean().optional().describe('true where both groups are taken to have one scatter (false if left out)'),
  }),
  result: {
    difference: 'mean of a less mean of b, unit of the values',
    t: 'difference in standard errors',
    df: 'degrees of freedom',
    p: 'chance of a difference as large in either direction where there is none, a fraction',
    limits: 'of the difference, unit of the values',
    confidence: 'as given, a fraction',
  },
  assumptions: ['values are independent and normal', 'pooled: both groups have the same scatter'],
  source: 'Welch (1947), Biometrika 34, 28-35; NIST/SEMATECH e-Handbook, section 1.3.5.3',
  run: ({ a, b, confidence, pooled }) => welch(a, b, confidence, { pooled: pooled ?? false }),
});

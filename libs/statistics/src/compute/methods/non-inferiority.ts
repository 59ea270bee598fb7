import { z } from 'zod';
import { nonInferiority } from '../../hypotheses/non-inferiority.js';
import { Confidence } from '../inputs.js';
import { Above0, List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const nonInferiorityMethod = defineMethod({
  method: 'non-inferiority',
  question: 'Is the mean of one group surely worse than that of another by less than a margin declared beforehand?',
  inputs: z.strictObject({
    a: List.describe('at least 2 numbers in any one unit'),
    b: List.describe('at least 2 numbers in the same unit'),
    better: z.enum(['higher', 'lower']).describe('which values are the better ones'),
    margin: Above0.describe('how much worse the mean of a may be, unit of the values'),
    confidence: Confidence.describe('one-sided, a fraction'),
  }),
  result: {
    difference: 'mean of a less mean of b, unit of the values',
    df: 'degrees of freedom (Welch)',
    limit:
      'how much worse a may be: lowest difference where higher is better, highest where lower is; unit of the values',
    p: 'chance of a difference so good, were a worse by just the margin, a fraction',
    nonInferior: 'true where the limit lies within the margin, that is where p is at most 1 - confidence',
    better: 'as given',
    margin: 'as given',
    confidence: 'as given, a fraction',
  },
  assumptions: ['values are independent and normal', 'the margin was declared before the test'],
  source: 'Blackwelder (1982), Control. Clin. Trials 3, 345-353; Welch (1947), Biometrika 34, 28-35',
  run: ({ a, b, ...asked }) => nonInferiority(a, b, asked),
});

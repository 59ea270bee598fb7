import { z } from 'zod';
import { conformanceProbability } from '../../uncertainty/conformance-probability.js';
import { Above0, Finite } from '../inputs-of-comparison.js';
import { checkUpward, Prior } from '../inputs-of-uncertainty.js';
import { defineMethod } from '../method.js';

export const conformanceProbabilityMethod = defineMethod({
  method: 'conformance-probability',
  question: 'How likely is it that a quantity lies within its tolerance, given its measured value?',
  inputs: z
    .strictObject({
      value: Finite.describe('measured value, in any one unit'),
      standardUncertainty: Above0.describe('of the measured value, same unit'),
      lower: Finite.optional().describe('lower limit, same unit; left out where there is none'),
      upper: Finite.optional().describe('upper limit, same unit; left out where there is none'),
      prior: Prior.optional().describe('what was known before the measurement: mean and sd, same unit'),
    })
    .superRefine((tolerance, context) => checkUpward(tolerance, [], context)),
  result: {
    probability: 'that the quantity lies within its limits, a fraction',
    mean: 'of what is known after the measurement, unit of the value',
    standardUncertainty: 'of what is known after the measurement, unit of the value',
  },
  assumptions: ['what the measurement, and the prior, say of the quantity is normal'],
  source: 'JCGM 106:2012, clauses 6 and 7',
  run: ({ value, standardUncertainty, lower, upper, prior }) =>
    conformanceProbability(value, standardUncertainty, { lower, upper }, prior),
});

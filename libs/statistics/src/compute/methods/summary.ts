import { z } from 'zod';
import { summary } from '../../description/summary.js';
import { Values } from '../inputs.js';
import { defineMethod } from '../method.js';

export const summaryMethod = defineMethod({
  method: 'summary',
  question: 'How many values are there, where do they lie, how do they scatter, and does each resemble the one before?',
  inputs: z.strictObject({ values: Values }),
  result: {
    n: 'number of values',
    mean: 'unit of the values',
    sd: 'sample standard deviation (divisor n - 1), unit of the values',
    cv: 'sd / mean, a fraction',
    min: 'unit of the values',
    median: 'unit of the values',
    max: 'unit of the values',
    lag1Autocorrelation: 'how alike neighbours are in the order given, -1 to 1',
  },
  assumptions: ['none for the description itself; the autocorrelation needs the values in the order they were found'],
  source: 'NIST/SEMATECH e-Handbook of Statistical Methods, sections 1.3.5.1, 1.3.5.6 and 1.3.5.12',
  run: ({ values }) => summary(values),
});

import { z } from 'zod';
import { demonstrationSize } from '../../sizing/demonstration-size.js';
import { Confidence, LotSize, Reliability } from '../inputs.js';
import { defineMethod } from '../method.js';

export const demonstrationSizeMethod = defineMethod({
  method: 'demonstration-size',
  question:
    'How many specimens, with no more than the allowed failures, show that this share of the population holds, with this confidence?',
  inputs: z.strictObject({
    reliability: Reliability,
    confidence: Confidence,
    allowedFailures: z
      .number()
      .int()
      .min(0)
      .max(1_000_000)
      .describe('failures with which the demonstration still succeeds'),
    lotSize: LotSize,
  }),
  result: {
    n: 'number of specimens',
    achievedConfidence: 'a fraction; the confidence that n specimens with the allowed failures really give',
  },
  assumptions: ['specimens are drawn at random', 'no distribution of strength is assumed'],
  source: 'Clopper and Pearson (1934), Biometrika 26, 404-413; for lots Buonaccorsi (1987), Amer. Statist. 41, 215-218',
  run: (inputs) => demonstrationSize(inputs),
});

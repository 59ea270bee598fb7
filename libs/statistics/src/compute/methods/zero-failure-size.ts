import { z } from 'zod';
import { zeroFailureSize } from '../../sizing/zero-failure-size.js';
import { Confidence, LotSize, Reliability } from '../inputs.js';
import { defineMethod } from '../method.js';

export const zeroFailureSizeMethod = defineMethod({
  method: 'zero-failure-size',
  question:
    'How many specimens, all without failure, show that this share of the population holds, with this confidence?',
  inputs: z.strictObject({ reliability: Reliability, confidence: Confidence, lotSize: LotSize }),
  result: {
    n: 'number of specimens',
    achievedConfidence: 'a fraction; the confidence that n specimens really give',
  },
  assumptions: ['specimens are drawn at random', 'no distribution of strength is assumed'],
  source: 'Clopper and Pearson (1934), Biometrika 26, 404-413; for lots Buonaccorsi (1987), Amer. Statist. 41, 215-218',
  run: (inputs) => zeroFailureSize(inputs),
});

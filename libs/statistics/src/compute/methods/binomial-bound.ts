import { z } from 'zod';
import { binomialBound } from '../../bounds/binomial-bound.js';
import { Confidence, LotSize } from '../inputs.js';
import { defineMethod } from '../method.js';

export const binomialBoundMethod = defineMethod({
  method: 'binomial-bound',
  question: 'What share of the population holds, when so many of n specimens failed?',
  inputs: z
    .strictObject({
      n: z.number().int().min(0).max(1_000_000_000).describe('number of specimens'),
      failures: z.number().int().min(0).describe('how many of them failed'),
      confidence: Confidence.describe('one-sided for reliabilityLower, two-sided for failureLimits; a fraction'),
      lotSize: LotSize,
    })
    .superRefine(({ n, failures, lotSize }, context) => {
      const refuse = (field: string, message: string) =>
        context.addIssue({ code: 'custom', path: [field], message, params: { code: 'body.range' } });
      if (failures > n) refuse('failures', `${failures} failures among ${n} specimens cannot be`);
      if (lotSize !== undefined && n > lotSize)
        refuse('lotSize', `${n} specimens cannot come from a lot of ${lotSize}`);
    }),
  result: {
    reliabilityLower: 'at least this share holds, a fraction',
    failureLimits: 'the share that fails lies between these, fractions',
    estimate: 'share that held in the sample, a fraction',
  },
  assumptions: ['specimens are drawn at random', 'no distribution of strength is assumed'],
  source: 'Clopper and Pearson (1934), Biometrika 26, 404-413; for lots Buonaccorsi (1987), Amer. Statist. 41, 215-218',
  run: (inputs) => binomialBound(inputs),
});

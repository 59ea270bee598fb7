import { z } from 'zod';
import { acceptanceRisks } from '../../uncertainty/acceptance-risks.js';
import { Above0 } from '../inputs-of-comparison.js';
import { checkUpward, Limits, Prior } from '../inputs-of-uncertainty.js';
import { defineMethod } from '../method.js';

export const acceptanceRisksMethod = defineMethod({
  method: 'acceptance-risks',
  question:
    'Of items from a production, measured with an error, what share is wrongly accepted, and what share wrongly refused?',
  inputs: z
    .strictObject({
      prior: Prior.describe('production: mean and sd of the true values, in any one unit'),
      standardUncertainty: Above0.describe('of one measured value, same unit'),
      tolerance: Limits.describe('lower and upper limit of conforming values, same unit; one may be left out'),
      acceptance: Limits.describe('lower and upper limit of accepted measured values, same unit; one may be left out'),
    })
    .superRefine(({ tolerance, acceptance }, context) => {
      checkUpward(tolerance, ['tolerance'], context);
      checkUpward(acceptance, ['acceptance'], context);
    }),
  result: {
    consumerRisk: 'share of all items accepted that do not conform, a fraction',
    producerRisk: 'share of all items that conform and are not accepted, a fraction',
    conforming: 'share of all items that conforms, a fraction',
    accepted: 'share of all items that is accepted, a fraction',
  },
  assumptions: ['production and measurement error are normal and independent'],
  source: 'JCGM 106:2012, clause 9',
  run: ({ prior, standardUncertainty, tolerance, acceptance }) =>
    acceptanceRisks(prior, standardUncertainty, tolerance, acceptance),
});

import { z } from 'zod';
import { USUAL_REPLICATES, weibullToleranceFactor } from '../../bounds/weibull-tolerance-factor.js';
import { Confidence, Coverage, refuseInput } from '../inputs.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const weibullToleranceFactorMethod = defineMethod({
  method: 'weibull-tolerance-factor',
  question: 'How far below the fitted quantile must a Weibull lower bound lie to hold this coverage and confidence?',
  inputs: z
    .strictObject({
      n: z.number().int().min(0).max(1000).describe('specimens on test'),
      failures: z.number().int().min(0).optional().describe('broken when the test ended at a break; all, if left out'),
      coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
      confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
      seed: Seed,
      replicates: z
        .number()
        .int()
        .min(1000)
        .max(1_000_000)
        .optional()
        .describe(`simulated samples; ${USUAL_REPLICATES} if left out`),
    })
    .superRefine(({ n, failures }, context) => {
      if (failures !== undefined && failures > n)
        refuseInput(context, ['failures'], 'body.range', `${failures} failures among ${n} specimens cannot be`);
    }),
  result: {
    v: 'in bound = q exp(-v / (shape sqrt n)), q and shape as fitted by maximum likelihood; no unit',
    simulationError: 'standard error of v',
    n: 'specimens on test',
    failures: 'broken when the test ended',
    seed: 'where the simulation started',
    replicates: 'simulated samples',
  },
  assumptions: [
    'strength follows a two-parameter Weibull distribution; specimens are independent and drawn at random',
    'every specimen breaks, or the test is planned to end at a break of this number',
  ],
  source:
    'Thoman, Bain and Antle (1969), Technometrics 11, 445-460; Lawless (1978), Technometrics 20, 355-368; form of ' +
    'MIL-HDBK-17-1F, volume 1, section 8.3.4.2',
  run: (inputs) => weibullToleranceFactor(inputs),
});

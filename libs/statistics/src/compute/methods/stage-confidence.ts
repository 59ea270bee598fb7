import { Distribution } from '@breakbook/lab';
import { z } from 'zod';
import { stageConfidence } from '../../sizing/stages/stage-confidence.js';
import { Confidence, Coverage, refuseInput } from '../inputs.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const stageConfidenceMethod = defineMethod({
  method: 'stage-confidence',
  question:
    'With what confidence must the bound be taken at each of several declared looks, so that the schedule keeps its own?',
  inputs: z
    .strictObject({
      stages: z
        .array(z.number().int().min(1).max(2000))
        .min(1)
        .max(20)
        .describe('specimens in all at each look, rising; those of earlier looks count in later ones'),
      coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
      confidence: Confidence.describe('of the whole schedule, one-sided, a fraction between 0 and 1'),
      distribution: Distribution.describe('declared before the test'),
      seed: Seed,
      replicates: z
        .number()
        .int()
        .min(1000)
        .max(1_000_000)
        .optional()
        .describe('simulated schedules; 10000 if left out'),
    })
    .superRefine(({ stages, distribution }, context) => {
      const fewest = distribution === 'distribution-free' ? 1 : 2;
      for (const [look, n] of stages.entries()) {
        if (n < fewest)
          refuseInput(context, ['stages', look], 'body.range', `a ${distribution} bound needs ${fewest} specimens`);
        if (look > 0 && n <= (stages[look - 1] as number))
          refuseInput(context, ['stages', look], 'body.range', 'each look has more specimens than the one before');
      }
    }),
  result: {
    perStageConfidence: 'of the bound at each look, a fraction',
    overall: 'the confidence the whole schedule then keeps, a fraction',
    unadjusted: 'what it would keep with the stated confidence at each look, a fraction',
    simulationError: 'standard error of overall and unadjusted; 0 where they are exact',
    seed: 'where the simulation started',
    replicates: 'simulated schedules',
  },
  assumptions: [
    'the schedule is declared before the test, and no other look decides',
    'specimens are independent and drawn at random; every strength is known exactly',
    'normal and lognormal by noncentral t, Weibull by the conditional technique, distribution-free by the order statistic',
  ],
  source: 'Pocock (1977), Biometrika 64, 191-199: one level for all looks; applied here to tolerance bounds',
  run: (inputs) => stageConfidence(inputs),
});

import { Distribution } from '@breakbook/lab';
import { z } from 'zod';
import { FEWEST_REPLICATES, lowerToleranceBound, TECHNIQUES } from '../../bounds/lower-tolerance-bound.js';
import { AnySample, Confidence, Coverage, checkSample, countOf, LotSize } from '../inputs.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const lowerToleranceBoundMethod = defineMethod({
  method: 'lower-tolerance-bound',
  question: 'What strength does at least this share of the population exceed, with this confidence?',
  inputs: z
    .strictObject({
      sample: AnySample,
      coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
      confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
      distribution: Distribution.describe('declared before the test'),
      technique: z
        .enum(TECHNIQUES)
        .optional()
        .describe('how the bound is found; left out, the one recommended for the distribution and the sample'),
      lotSize: LotSize,
      seed: Seed,
      replicates: z
        .number()
        .int()
        .min(FEWEST_REPLICATES)
        .max(1_000_000)
        .optional()
        .describe('simulated tests, for the techniques calibrated and bootstrap; 4000 if left out'),
    })
    .superRefine(({ sample, distribution, lotSize }, context) => {
      checkSample(sample, ['sample'], context, {
        positive: distribution === 'weibull' || distribution === 'lognormal',
      });
      const n = countOf(sample);
      if (lotSize !== undefined && n > lotSize)
        context.addIssue({
          code: 'custom',
          path: ['lotSize'],
          message: `${n} specimens cannot come from a lot of ${lotSize}`,
          params: { code: 'body.range' },
        });
    }),
  result: {
    bound: 'unit of the sample',
    estimate: 'the strength that a share `coverage` exceeds, as best estimated, unit of the sample',
    technique: 'how the bound was found',
    achievedConfidence: 'a fraction; the confidence the technique really gives',
    population: 'process, or lot where the size of the lot entered',
    forAcceptance: 'false where the bound is for comparison only',
    n: 'number of specimens',
    failures: 'number that broke',
    assumptions: 'what the bound rests on, in sentences',
    factor: 'standard deviations below the mean (noncentral t), or the power of the ratio (Hanson-Koopmans); no unit',
    rank: 'which of the strengths from the weakest (order statistic, Hanson-Koopmans)',
    simulationError:
      'standard error of achievedConfidence (calibrated, a fraction) or of bound (bootstrap, unit of the sample)',
    shareNotEvaluated: 'share of the simulated tests that gave no bound and are left out, a fraction',
    level: 'level at which the bound was taken where that is above confidence (calibrated), a fraction',
    seed: 'where the simulation started',
    replicates: 'simulated tests that gave a bound',
  },
  assumptions: [
    'specimens are independent and drawn at random from the population',
    'the distribution was declared before the test',
    'exact for complete samples and tests that ended at the last break; for any other censoring the confidence reached is simulated',
    'likelihood-ratio and bootstrap are for comparison only: no acceptance rests on them',
  ],
  source:
    'Owen (1963), Sandia SCR-607; Lawless (1975), Technometrics 17, 255-261, and (1978), Technometrics 20, 355-368; ' +
    'Wilks (1941), Ann. Math. Statist. 12, 91-96; ISO 16269-6:2014',
  run: (inputs) => lowerToleranceBound(inputs),
});

import { z } from 'zod';
import { basisValue } from '../../bounds/basis/basis-value.js';
import { Confidence, Coverage } from '../inputs.js';
import { Alpha, Groups, Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const basisValueMethod = defineMethod({
  method: 'basis-value',
  question:
    'What strength does at least this share of a population exceed, when tests on the sample itself decide how the bound is formed?',
  inputs: z.strictObject({
    groups: Groups,
    coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
    confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
    alpha: Alpha.optional().describe(
      'chance of calling batches unlike where they are alike, a fraction; 0.025 if left out',
    ),
    seed: Seed,
    replicates: z
      .number()
      .int()
      .min(200)
      .max(100_000)
      .optional()
      .describe('simulated sets of batches; 1000 if left out'),
  }),
  result: {
    bound: 'unit of the values',
    technique:
      'how the bound was formed: conditional, noncentral-t, order-statistic, hanson-koopmans or analysis-of-variance',
    distribution: 'the one taken; left out where none was',
    population: 'what the claim is about: batches made as these were, or with one batch this batch alone',
    achievedConfidence: 'the confidence the path as a whole reaches in simulation, a fraction',
    simulationError: 'standard error of achievedConfidence',
    keepsConfidence: 'false where the path falls short of the confidence by more than that error',
    steps: 'every step by the question it answers, with its numbers',
    warnings: 'what weakens the claim, in sentences',
    n: 'number of values',
    batches: 'number of batches',
    alpha: 'as taken, a fraction',
  },
  assumptions: [
    'the plan declares this path before the test',
    'specimens are independent; every strength is known exactly; batches are drawn at random',
    'values called out are printed and never left out',
  ],
  source: 'MIL-HDBK-17-1F (2002), volume 1, section 8.3.1 (order of the steps from memory)',
  run: ({ groups, ...question }) => basisValue(groups, question),
});

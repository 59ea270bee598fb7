import { z } from 'zod';
import {
  type KnownPopulation,
  predictionProbability,
  predictionProbabilityByRank,
  predictionProbabilityKnown,
} from '../../prediction/prediction-probability.js';
import { Above0, Finite } from '../inputs-of-comparison.js';
import { basisInputs, basisOf, checkBasis, Declared, FutureUnits } from '../inputs-of-prediction.js';
import { defineMethod } from '../method.js';

const KNOWN =
  'a population known beforehand, in place of values: Weibull, normal, or lognormal; scale, mean and sd in the unit of x';
const Known = z.union([
  z.strictObject({ shape: Above0, scale: Above0 }),
  z.strictObject({ mean: Finite, sd: Above0 }),
  z.strictObject({ logMean: Finite, logSd: Above0 }),
]);

export const predictionProbabilityMethod = defineMethod({
  method: 'prediction-probability',
  question: 'How likely is it that the smallest of m future units lies below x?',
  inputs: z
    .strictObject({
      ...basisInputs,
      known: Known.optional().describe(KNOWN),
      distribution: Declared.optional().describe('declared before the test; left out where known is given'),
      m: FutureUnits,
      x: Finite.optional().describe('unit of the strengths; left out where rank is given'),
      rank: z
        .number()
        .int()
        .min(1)
        .optional()
        .describe('distribution-free, with n: x is then the rank-th smallest of the n units tested'),
    })
    .superRefine((given, context) => {
      const refuse = (path: string, code: string, message: string) =>
        context.addIssue({ code: 'custom', path: [path], message, params: { code } });
      const { known, distribution, x, rank, n } = given;
      const byRank = distribution === 'distribution-free' && rank !== undefined;
      if (rank !== undefined && !byRank)
        refuse('rank', 'body.unknown-field', 'rank goes with the distribution "distribution-free"; leave it out here');
      if (x === undefined && !byRank) refuse('x', 'body.missing-field', 'x is needed here and was not found');
      if (byRank) {
        if (x !== undefined) refuse('x', 'body.unknown-field', 'rank stands in place of x; give one of the two');
        for (const name of ['values', 'sample', 'mean', 'sd', 'known'] as const)
          if (given[name] !== undefined)
            refuse(name, 'body.unknown-field', `with rank only n and m are needed; leave ${name} out`);
        if (n === undefined) refuse('n', 'body.missing-field', 'n is needed here, the number of units tested');
        else if (rank > n) refuse('rank', 'body.range', `there is no number ${rank} among ${n} units`);
      } else if (known !== undefined) {
        for (const name of ['values', 'sample', 'n', 'mean', 'sd', 'distribution'] as const)
          if (given[name] !== undefined)
            refuse(name, 'body.unknown-field', `known says all of the population; leave ${name} out`);
      } else {
        if (distribution === undefined)
          refuse('distribution', 'body.missing-field', 'distribution is needed here, or known in its place');
        checkBasis(given, distribution ?? 'normal', context);
      }
    }),
  result: {
    probability: 'that the smallest of m future units lies below x, a fraction',
    m: 'number of future units',
  },
  assumptions: [
    'past and future units are drawn at random from one population',
    'normal and lognormal: complete samples; Weibull: complete samples and tests that ended at the last break',
    'the uncertainty of the estimates is in it, except where the population is known',
  ],
  source: 'Hahn and Meeker (1991), Statistical Intervals, chapters 4 and 5; Lawless (1973), Technometrics 15, 857-865',
  run({ known, distribution, m, x, rank, ...given }) {
    if (distribution === 'distribution-free' && rank !== undefined && given.n !== undefined)
      return predictionProbabilityByRank(given.n, m, rank);
    if (x === undefined) throw new Error('the inputs schema lets neither x nor rank be missing');
    if (known !== undefined) return predictionProbabilityKnown(known satisfies KnownPopulation, m, x);
    if (distribution === undefined) throw new Error('the inputs schema lets neither known nor distribution be missing');
    return predictionProbability({ basis: basisOf(given), distribution, m, x });
  },
});

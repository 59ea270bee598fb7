import { z } from 'zod';
import { weibullDemonstrationLoad, weibullDemonstrationSize } from '../../sizing/weibull-demonstration-size.js';
import { Confidence, Reliability } from '../inputs.js';
import { defineMethod } from '../method.js';

export const weibullDemonstrationSizeMethod = defineMethod({
  method: 'weibull-demonstration-size',
  question:
    'How many specimens, loaded above the load of the claim, show a reliability there, if the Weibull shape is known beforehand?',
  inputs: z
    .strictObject({
      shape: z.number().min(0.01).max(1000).describe('Weibull shape known beforehand, no unit'),
      reliability: Reliability.describe('share that holds at the load of the claim, a fraction between 0 and 1'),
      confidence: Confidence,
      allowedFailures: z.number().int().min(0).max(1_000_000).optional().describe('0 if left out'),
      n: z
        .number()
        .int()
        .min(0)
        .max(1_000_000_000)
        .optional()
        .describe('number of specimens; loadRatio is then the answer'),
      loadRatio: z
        .number()
        .min(1e-6)
        .max(1e6)
        .optional()
        .describe('load of the test divided by the load of the claim; n is then the answer'),
    })
    .superRefine(({ n, loadRatio }, context) => {
      if (n === undefined && loadRatio === undefined)
        context.addIssue({
          code: 'custom',
          path: ['loadRatio'],
          message: 'loadRatio, or n in its place, is needed here and neither was found',
          params: { code: 'body.missing-field' },
        });
      if (n !== undefined && loadRatio !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['n'],
          message: 'n and loadRatio are each the answer to the other; give one of the two',
          params: { code: 'body.unknown-field' },
        });
    })
    .meta({ oneOf: [{ required: ['n'] }, { required: ['loadRatio'] }] }),
  result: {
    n: 'number of specimens',
    loadRatio: 'load of the test divided by the load of the claim, no unit',
    allowedFailures: 'failures with which the demonstration still succeeds',
    reliabilityAtTest: 'share that must hold at the load of the test, a fraction',
  },
  assumptions: [
    'strength follows a Weibull distribution of exactly this shape, known from other specimens',
    'a shape taken too large makes the claim too bold where the load is raised',
  ],
  source:
    'Nelson (1985), J. Qual. Technol. 17, 140-146; Meeker and Escobar (1998), Statistical Methods for Reliability Data, section 10.6',
  run({ n, loadRatio, ...goal }) {
    if (n !== undefined) return weibullDemonstrationLoad({ ...goal, n });
    if (loadRatio === undefined) throw new Error('the inputs schema lets neither n nor loadRatio be missing');
    return weibullDemonstrationSize({ ...goal, loadRatio });
  },
});

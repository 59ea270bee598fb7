import { z } from 'zod';
import { kaplanMeier } from '../../plotting/kaplan-meier.js';
import { AnySample, Confidence, checkSample } from '../inputs.js';
import { defineMethod } from '../method.js';

export const kaplanMeierMethod = defineMethod({
  method: 'kaplan-meier',
  question: 'What share of the specimens survives each strength, whatever the distribution?',
  inputs: z
    .strictObject({
      sample: AnySample,
      confidence: Confidence.optional().describe('two-sided, of the limits; a fraction, 0.95 if left out'),
    })
    .superRefine(({ sample }, context) => checkSample(sample, ['sample'], context, { positive: false })),
  result: {
    'points.value': 'strength at which specimens broke, unit of the sample',
    'points.from': 'with intervals: where the step begins at the earliest, unit of the sample',
    'points.atRisk': 'number still on test there; specimens withdrawn at this very strength count',
    'points.failed': 'number that broke there',
    'points.survival': 'share that holds more, a fraction',
    'points.standardError': 'of survival, by Greenwood, a fraction',
    'points.limits': 'of survival, two-sided, on the scale of ln(-ln survival), fractions',
    note: 'with at most or between values: that the steps are those of Turnbull, without standard errors',
    n: 'number of specimens',
    failures: 'number that broke',
  },
  assumptions: [
    'specimens are independent',
    'what ended a test early had nothing to do with how much more the specimen would have held',
  ],
  source:
    'Kaplan and Meier (1958), J. Amer. Statist. Assoc. 53, 457-481; Greenwood (1926); intervals: Turnbull (1976), ' +
    'J. R. Statist. Soc. B 38, 290-295',
  run: ({ sample, confidence }) => kaplanMeier(sample, { confidence }),
});

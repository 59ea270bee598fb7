import { Fraction, Sample } from '@breakbook/lab';
import { z } from 'zod';
import { competingModes } from '../../bounds/competing-modes.js';
import { modesTogether } from '../../bounds/samples-by-mode.js';
import { Confidence, checkSample, refuseInput } from '../inputs.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const competingModesMethod = defineMethod({
  method: 'competing-modes',
  question: 'How strong is each mode of failure by itself, and a specimen that fails by whichever comes first?',
  inputs: z
    .strictObject({
      samplesByMode: z
        .record(z.string().min(1).max(200), Sample)
        .describe(
          'for each mode a sample of every specimen: exact, atMost or between where the mode broke it, atLeast where ' +
            'another mode did or it was withdrawn; samples without any atLeast are taken as what each mode broke, ' +
            'every specimen having broken',
        ),
      confidence: Confidence.describe('one-sided for bounds and lower, two-sided for limits; a fraction'),
      quantiles: z.array(Fraction).max(20).describe('shares failing at which the strength is asked for, fractions'),
      seed: Seed,
      replicates: z
        .number()
        .int()
        .min(500)
        .max(100_000)
        .optional()
        .describe('simulated tests of the series bound; 2000 if left out'),
    })
    .superRefine(({ samplesByMode }, context) => {
      const before = context.issues.length;
      for (const [mode, sample] of Object.entries(samplesByMode))
        checkSample(sample, ['samplesByMode', mode], context, { positive: true });
      if (context.issues.length > before) return;
      const together = modesTogether(samplesByMode);
      if ('message' in together) refuseInput(context, ['samplesByMode', together.mode], 'body.range', together.message);
    }),
  result: {
    n: 'number of specimens',
    failuresByMode: 'number that each mode broke',
    perMode: 'for each mode its Weibull fit, as weibull-fit gives it',
    allModes: 'the Weibull fit in which every mode counts as a break, as weibull-fit gives it',
    bounds:
      'for each fraction: allModes, the lower tolerance bound as lower-tolerance-bound gives it, and series, by the modes ' +
      'together: estimate, lower (bootstrap, for comparison only) and its simulationError, unit of the samples',
    assumptions: 'what the numbers rest on, in sentences',
  },
  assumptions: [
    'specimens are independent and drawn at random',
    'per mode and series: modes act independently, which no sample can show',
    'bounds of single modes are never multiplied',
  ],
  source:
    'Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., chapter 9; Meeker and Escobar (1998), ' +
    'Statistical Methods for Reliability Data, section 15.4',
  run: ({ samplesByMode, ...question }) => competingModes(samplesByMode, question),
});

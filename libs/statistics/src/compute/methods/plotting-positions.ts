import { z } from 'zod';
import { plottingPositions, plottingPositionsOf } from '../../plotting/plotting-positions.js';
import { AnySample, checkSample, SAMPLE } from '../inputs.js';
import { defineMethod } from '../method.js';

export const plottingPositionsMethod = defineMethod({
  method: 'plotting-positions',
  question: 'At what share failing is each broken specimen drawn on a probability plot?',
  inputs: z
    .strictObject({
      n: z.number().int().min(1).max(10_000).optional().describe('specimens that all broke, in place of a sample'),
      sample: AnySample.optional().describe(SAMPLE),
    })
    .superRefine(({ n, sample }, context) => {
      if (n === undefined && sample === undefined)
        context.addIssue({
          code: 'custom',
          path: ['sample'],
          message: 'sample, or n in its place, is needed here and neither was found',
          params: { code: 'body.missing-field' },
        });
      if (n !== undefined && sample !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['n'],
          message: 'n stands in place of sample; give one of the two',
          params: { code: 'body.unknown-field' },
        });
      if (sample !== undefined) checkSample(sample, ['sample'], context, { positive: false });
    })
    .meta({ oneOf: [{ required: ['n'] }, { required: ['sample'] }] }),
  result: {
    'points.value': 'the strength, unit of the sample; left out where n was given',
    'points.adjustedRank': 'rank among all, raised for specimens withdrawn before',
    'points.exact': 'median rank, share failing, a fraction',
    'points.benard': 'its approximation, a fraction',
    'points.rank05': '5 % rank, a fraction',
    'points.rank95': '95 % rank, a fraction',
  },
  assumptions: [
    'specimens withdrawn would have broken at the same ranks as those that stayed',
    'for drawing only: no claim rests on a plotting position',
  ],
  source: 'Benard and Bos-Levenbach (1953), Statistica Neerlandica 7, 163-173; adjusted ranks Johnson (1964)',
  run({ n, sample }) {
    if (n !== undefined) return plottingPositionsOf(n);
    if (sample === undefined) throw new Error('the inputs schema lets neither n nor sample be missing');
    return plottingPositions(sample);
  },
});

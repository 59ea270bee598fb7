import { z } from 'zod';
import { fromExpanded, standardUncertainty } from '../../uncertainty/standard-uncertainty.js';
import { Above0 } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const standardUncertaintyMethod = defineMethod({
  method: 'standard-uncertainty',
  question: 'What standard uncertainty stands behind a half width, or behind an expanded uncertainty?',
  inputs: z
    .strictObject({
      halfWidth: Above0.describe('half the width of the interval, or the expanded uncertainty, in any unit'),
      distribution: z
        .enum(['rectangular', 'triangular', 'u-shaped', 'normal'])
        .describe('how the quantity lies within it; normal: halfWidth is an expanded uncertainty'),
      k: Above0.optional().describe('coverage factor of the expanded uncertainty; for normal only'),
    })
    .superRefine(({ distribution, k }, context) => {
      if (distribution === 'normal' && k === undefined)
        context.addIssue({
          code: 'custom',
          path: ['k'],
          message: 'k is needed with normal: the factor the expanded uncertainty was made with, often 2',
          params: { code: 'body.missing-field' },
        });
      if (distribution !== 'normal' && k !== undefined)
        context.addIssue({
          code: 'custom',
          path: ['k'],
          message: `k goes with normal only; a ${distribution} half width has none`,
          params: { code: 'body.unknown-field' },
        });
    }),
  result: { u: 'standard uncertainty, unit of the half width' },
  assumptions: ['the quantity lies within the half width for certain (rectangular, triangular, u-shaped)'],
  source: 'JCGM 100:2008 (GUM), 4.3.3, 4.3.7 and 4.3.9; JCGM 101:2008, 6.4.6 (u-shaped)',
  run: ({ halfWidth, distribution, k }) => ({
    method: 'standard uncertainty',
    u: distribution === 'normal' ? fromExpanded(halfWidth, k ?? 1) : standardUncertainty(halfWidth, distribution),
  }),
});

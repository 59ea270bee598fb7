import { Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { guardBand } from '../../uncertainty/guard-band.js';
import { Above0, Finite } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const guardBandMethod = defineMethod({
  method: 'guard-band',
  question: 'How far inside a limit must a measured value lie, for the quantity to conform with this probability?',
  inputs: z.strictObject({
    limit: Finite.describe('in any one unit'),
    side: z.enum(['lower', 'upper']).describe('lower: the quantity must lie above the limit; upper: below it'),
    standardUncertainty: Above0.describe('of the measured value, same unit'),
    probability: Fraction.describe('wanted for a value at the acceptance limit, a fraction between 0 and 1'),
  }),
  result: {
    guardBand: 'unit of the limit; below 0 where less than even odds are asked for',
    acceptanceLimit: 'unit of the limit',
  },
  assumptions: [
    'what the measurement says is normal',
    'the other side of the tolerance, if any, lies many standard uncertainties away',
  ],
  source: 'JCGM 106:2012, clause 8; ILAC-G8:09/2019',
  run: ({ limit, side, standardUncertainty, probability }) => guardBand(limit, side, standardUncertainty, probability),
});

import { z } from 'zod';
import { chartConstants } from '../../charts/chart-constants.js';
import { defineMethod } from '../method.js';

export const chartConstantsMethod = defineMethod({
  method: 'chart-constants',
  question: 'With what factors are the limits of control charts formed for groups of n values?',
  inputs: z.strictObject({ n: z.number().int().min(2).max(1000).describe('values in each group') }),
  result: {
    d2: 'mean range over sigma',
    d3: 'standard deviation of the range over sigma',
    c4: 'mean sample standard deviation over sigma',
    a2: 'limits of means: times the mean range',
    a3: 'limits of means: times the mean standard deviation',
    b3: 'lower limit of standard deviations: times their mean',
    b4: 'upper limit of standard deviations: times their mean',
    d3Factor: 'lower limit of ranges: times their mean',
    d4Factor: 'upper limit of ranges: times their mean',
    n: 'values in each group',
  },
  assumptions: ['values are independent and normal', 'limits stand three standard deviations away'],
  source: 'ISO 7870-2:2013; Tippett (1925), Biometrika 17, 364-387',
  run: ({ n }) => chartConstants(n),
});

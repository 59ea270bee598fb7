import { z } from 'zod';
import { cusumChart } from '../../charts/cusum-chart.js';
import { Above0, Finite, List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const cusumChartMethod = defineMethod({
  method: 'cusum-chart',
  question: 'Does a series of values run a little off its target, for long?',
  inputs: z.strictObject({
    values: List.describe('numbers in any one unit, in the order they were found'),
    target: Finite.describe('same unit'),
    sigma: Above0.describe('scatter of single values, same unit'),
    k: z.number().min(0).max(1e6).describe('half the shift that is to be found, in sigmas'),
    h: Above0.describe('how much must have gathered for a signal, in sigmas'),
  }),
  result: {
    upper: 'gathered upward after each value, in sigmas, from 0',
    lower: 'gathered downward, in sigmas, counted positive',
    signals: 'where either exceeds h, counted from 0',
  },
  assumptions: ['values are independent and normal while nothing changes'],
  source: 'Page (1954), Biometrika 41, 100-115; NIST/SEMATECH e-Handbook, section 6.3.2.3',
  run: ({ values, ...design }) => cusumChart(values, design),
});

import { z } from 'zod';
import { ewmaChart } from '../../charts/ewma-chart.js';
import { Above0, Finite, List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const ewmaChartMethod = defineMethod({
  method: 'ewma-chart',
  question: 'Does a series of values drift slowly?',
  inputs: z.strictObject({
    values: List.describe('numbers in any one unit, in the order they were found'),
    target: Finite.describe('middle line and start, same unit'),
    sigma: Above0.describe('scatter of single values, same unit'),
    lambda: z.number().gt(0).max(1).describe('weight of the newest value, above 0 and at most 1'),
    width: Above0.describe('half the distance of the limits, in standard deviations of the weighted mean'),
  }),
  result: {
    points: 'weighted mean after each value, unit of the values',
    limits: 'of each point, unit of the values; they open as the start is forgotten',
    finalLimits: 'what the limits tend to, unit of the values',
    signals: 'which points lie outside their limits, counted from 0',
  },
  assumptions: ['values are independent and normal while nothing changes'],
  source: 'Roberts (1959), Technometrics 1, 239-250; NIST/SEMATECH e-Handbook, section 6.3.2.4',
  run: ({ values, ...design }) => ewmaChart(values, design),
});

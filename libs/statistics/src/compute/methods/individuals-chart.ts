import { z } from 'zod';
import { individualsChart } from '../../charts/individuals-chart.js';
import { Above0, Finite, List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const individualsChartMethod = defineMethod({
  method: 'individuals-chart',
  question: 'Does a series of values, one for each lot, run on unchanged?',
  inputs: z.strictObject({
    values: List.describe('numbers in any one unit, in the order they were found'),
    target: Finite.optional().describe('middle line, same unit; the mean of the values if left out'),
    sigma: Above0.optional().describe(
      'scatter of single values, same unit; from the differences between neighbours if left out',
    ),
  }),
  result: {
    centre: 'middle line, unit of the values',
    sigma: 'standard deviation of single values, unit of the values',
    limits: 'centre -+ 3 sigma, unit of the values',
    movingRangeMean: 'mean difference between neighbours, unit of the values',
    movingRangeUpper: 'upper limit of those differences, unit of the values',
    signals: 'which values lie outside the limits, counted from 0',
    movingRangeSignals: 'which values differ too much from the one before, counted from 0',
  },
  assumptions: ['values are independent and normal while nothing changes'],
  source: 'NIST/SEMATECH e-Handbook, section 6.3.2.2',
  run: ({ values, ...reference }) => individualsChart(values, reference),
});

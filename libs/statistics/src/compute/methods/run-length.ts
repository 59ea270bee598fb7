import { z } from 'zod';
import { runLength } from '../../charts/run-length.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

const Width = z.number().min(0.01).max(30);
/** So many integral equations are solved in less than a minute. */
const MOST_EQUATIONS = 20_000;

export const runLengthMethod = defineMethod({
  method: 'run-length',
  question: 'How many values, on average, does a chart take to give a signal after the mean has shifted?',
  inputs: z
    .strictObject({
      chart: z
        .discriminatedUnion('kind', [
          z.strictObject({ kind: z.literal('individuals'), width: Width }),
          z.strictObject({ kind: z.literal('ewma'), lambda: z.number().min(0.001).max(1), width: Width }),
          z.strictObject({ kind: z.literal('cusum'), k: z.number().min(0).max(10), h: z.number().min(0.01).max(100) }),
        ])
        .describe(
          'kind and its constants: individuals {width}, ewma {lambda, width} (limits in standard deviations of what is drawn), ' +
            'cusum {k, h} (in sigmas)',
        ),
      sides: z.literal([1, 2]).describe('1: only a rise gives a signal; 2: a rise or a fall'),
      shifts: z
        .array(z.number().min(-100).max(100))
        .max(100)
        .describe('shifts of the mean, in standard deviations of single values'),
      estimatedFrom: z
        .strictObject({ lots: z.number().int().min(2).max(1000) })
        .optional()
        .describe('target and sigma are estimated from so many lots; left out where they are known'),
      seed: Seed.describe('of the simulated charts, with estimatedFrom; 1 if left out'),
      replicates: z
        .number()
        .int()
        .min(2)
        .max(100_000)
        .optional()
        .describe('how many charts are simulated, with estimatedFrom; 1000 if left out'),
    })
    .superRefine(({ chart, shifts, estimatedFrom, seed, replicates }, context) => {
      const refuse = (path: string, code: string, message: string) =>
        context.addIssue({ code: 'custom', path: [path], message, params: { code } });
      if (estimatedFrom === undefined) {
        if (seed !== undefined) refuse('seed', 'body.unknown-field', 'nothing is simulated without estimatedFrom');
        if (replicates !== undefined)
          refuse('replicates', 'body.unknown-field', 'nothing is simulated without estimatedFrom');
        return;
      }
      if (chart.kind !== 'individuals' && shifts.length * (replicates ?? 1000) > MOST_EQUATIONS)
        refuse(
          'replicates',
          'body.range',
          `${shifts.length} shifts of ${replicates ?? 1000} charts take too long; their product may be ${MOST_EQUATIONS} at most`,
        );
      if ((chart.kind === 'ewma' && chart.lambda < 0.02) || (chart.kind === 'cusum' && chart.h > 20))
        refuse('chart', 'body.range', 'with estimatedFrom lambda must be at least 0.02 and h at most 20');
    }),
  result: {
    averageRunLength: 'for each shift: mean number of values from the shift to the signal, from a start at the target',
    ofCharts:
      'with estimatedFrom, for each shift: the run length that a tenth, half and nine tenths of such charts stay below',
    simulationError: 'with estimatedFrom: standard error of each averageRunLength',
    estimatedFrom: 'as given',
    seed: 'with estimatedFrom: as given or 1',
    replicates: 'with estimatedFrom: as given or 1000',
    chart: 'as given',
    sides: 'as given',
    shifts: 'as given',
  },
  assumptions: [
    'values are independent and normal',
    'ewma: the final limits are drawn throughout',
    'estimatedFrom: target is the mean and sigma the mean difference between neighbours over d2, of lots without a shift',
  ],
  source:
    'Crowder (1987), Technometrics 29, 401-407; Page (1954), Biometrika 41, 100-115; Vance (1986), J. Qual. Technol. 18, 189-193; Quesenberry (1993), J. Qual. Technol. 25, 237-247',
  run: ({ chart, sides, shifts, estimatedFrom, seed, replicates }) =>
    runLength({
      chart,
      sides,
      shifts,
      ...(estimatedFrom === undefined ? {} : { estimatedFrom: { ...estimatedFrom, seed, replicates } }),
    }),
});

import { z } from 'zod';
import { freemanHalton } from '../../hypotheses/freeman-halton.js';
import { defineMethod } from '../method.js';

const Count = z.number().int().min(0).max(10_000);

export const freemanHaltonMethod = defineMethod({
  method: 'freeman-halton',
  question: 'Do two groups fall into categories, such as failure modes, in the same shares?',
  inputs: z.strictObject({
    counts: z
      .array(z.tuple([Count, Count]))
      .max(50)
      .describe('for each category [units of the first group, units of the second], whole numbers'),
  }),
  result: {
    p: 'share of tables with the same totals that are no more likely than the one given, a fraction',
    chanceOfTable: 'how likely the one given is among them, a fraction',
    tables: 'how many tables have these totals',
  },
  assumptions: ['units are independent', 'categories were fixed before the units were looked at'],
  source:
    'Freeman and Halton (1951), Biometrika 38, 141-149; two categories: Fisher (1935), J. R. Statist. Soc. 98, 39-54',
  run: ({ counts }) => freemanHalton(counts),
});

import { z } from 'zod';
import { shapiroWilk } from '../../hypotheses/shapiro-wilk.js';
import { List } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

export const shapiroWilkMethod = defineMethod({
  method: 'shapiro-wilk',
  question: 'Do these values look normal?',
  inputs: z.strictObject({ values: List.describe('3 to 5000 numbers in any one unit') }),
  result: {
    n: 'number of values',
    w: '0 to 1; near 1 where the values lie as normal ones do',
    p: 'chance of a w as small where the values are normal, a fraction',
  },
  assumptions: [
    'values are independent and drawn at random',
    'all values are known exactly, and finely enough to differ',
  ],
  source: 'Royston (1995), Appl. Statist. 44, 547-551 (algorithm AS R94)',
  run: ({ values }) => shapiroWilk(values),
});

import { Sample } from '@breakbook/lab';
import { z } from 'zod';
import { gehanTest, type Within } from '../../hypotheses/gehan-test.js';
import { countOf, refuseInput, SAMPLE } from '../inputs.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

/** Each value is held against each other. */
const MOST = 1000;

export const gehanTestMethod = defineMethod({
  method: 'gehan-test',
  question: 'Does one group tend to hold larger values than another, where some values are known from one side only?',
  inputs: z
    .strictObject({
      a: Sample.describe(SAMPLE),
      b: Sample.describe('the same, in the same unit'),
      seed: Seed.describe('starts the random arrangements, drawn only where there are too many to look at each; 1'),
    })
    .superRefine(({ a, b }, context) => {
      for (const [name, sample] of Object.entries({ a, b })) {
        if (countOf(sample) > MOST) refuseInput(context, [name], 'body.range', `at most ${MOST} values are compared`);
        for (const [index, [low, high]] of (sample.between ?? []).entries())
          if (!(low <= high))
            refuseInput(
              context,
              [name, 'between', index],
              'body.range',
              `an interval runs upward; got ${low} to ${high}`,
            );
      }
    }),
  result: {
    w: 'pairs in which a is surely larger, less pairs in which it is surely smaller',
    sd: 'standard deviation of w among all arrangements',
    pTwoSided: 'share of arrangements at least as far from the middle, a fraction',
    pLess: 'small where a tends to be less than b, a fraction',
    pGreater: 'small where a tends to be greater than b, a fraction',
    exact: 'true where every arrangement was looked at',
    simulationError: 'standard error of pTwoSided where arrangements were drawn, a fraction',
  },
  assumptions: ['values are independent', 'where there is no difference, both groups were ended early in the same way'],
  source: 'Gehan (1965), Biometrika 52, 203-223; scores and sd Mantel (1967), Biometrics 23, 65-78',
  run: ({ a, b, seed }) => gehanTest(withinOf(a), withinOf(b), { seed }),
});

function withinOf({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): Within[] {
  return [
    ...exact.map((value) => ({ from: value, to: value })),
    ...atLeast.map((value) => ({ from: value, to: Number.POSITIVE_INFINITY })),
    ...atMost.map((value) => ({ from: Number.NEGATIVE_INFINITY, to: value })),
    ...between.map(([from, to]) => ({ from, to })),
  ];
}

import { z } from 'zod';
import { orderStatisticConfidence, orderStatisticRank, orderStatisticSize } from '../../bounds/order-statistic.js';
import { Confidence, Coverage, LotSize, refuseInput } from '../inputs.js';
import { defineMethod } from '../method.js';

/** To here the incomplete beta function keeps its digits. */
const LARGEST_SIZE = 1_000_000_000;

export const orderStatisticBoundMethod = defineMethod({
  method: 'order-statistic-bound',
  question:
    'Which of so many strengths, from the weakest, is a lower bound that no distribution has to be assumed for?',
  inputs: z
    .strictObject({
      n: z
        .number()
        .int()
        .min(0)
        .max(LARGEST_SIZE)
        .optional()
        .describe('number of specimens; left out, it is the answer'),
      rank: z
        .number()
        .int()
        .min(1)
        .max(LARGEST_SIZE)
        .optional()
        .describe('which strength, from the weakest, is the bound; left out, it is the answer'),
      confidence: Confidence.optional().describe('one-sided, a fraction between 0 and 1; left out, it is the answer'),
      coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
      lotSize: LotSize,
    })
    .superRefine(({ n, rank, confidence, lotSize }, context) => {
      const given = [n, rank, confidence].filter((value) => value !== undefined).length;
      if (given < 2)
        refuseInput(
          context,
          [n === undefined ? 'n' : rank === undefined ? 'rank' : 'confidence'],
          'body.missing-field',
          'two of n, rank and confidence are needed here',
        );
      if (n !== undefined && rank !== undefined && rank > n)
        refuseInput(context, ['rank'], 'body.range', `${n} strengths have no rank ${rank}`);
      if (n !== undefined && lotSize !== undefined && n > lotSize)
        refuseInput(context, ['lotSize'], 'body.range', `${n} specimens cannot come from a lot of ${lotSize}`);
    }),
  result: {
    n: 'number of specimens; the fewest that serve, where it was left out',
    rank: 'which strength, from the weakest, is the bound; the largest that serves, where it was left out',
    achievedConfidence: 'a fraction; what this rank of this many really gives',
    confidence: 'as asked; where it was left out, the achieved one',
    enough: 'where n, rank and confidence were all given: whether the confidence is reached',
  },
  assumptions: ['specimens are independent and drawn at random from the population', 'no distribution is assumed'],
  source: 'Wilks (1941), Ann. Math. Statist. 12, 91-96; ISO 16269-6:2014; for lots the hypergeometric distribution',
  run({ n, rank, confidence, ...claim }) {
    if (n !== undefined && rank !== undefined) {
      const found = orderStatisticConfidence({ ...claim, n, rank });
      if (confidence === undefined) return { ...found, confidence: found.achievedConfidence };
      return { ...found, confidence, enough: 1 - found.achievedConfidence <= (1 - confidence) * (1 + 1e-12) };
    }
    if (confidence === undefined)
      throw new Error('the inputs schema lets only one of n, rank and confidence be missing');
    const found =
      n === undefined
        ? orderStatisticSize({ ...claim, rank: rank as number, confidence })
        : orderStatisticRank({ ...claim, n, confidence });
    return 'notEvaluated' in found ? found : { ...found, confidence };
  },
});

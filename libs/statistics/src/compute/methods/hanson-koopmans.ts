import { z } from 'zod';
import { hansonKoopmansBound, hansonKoopmansFactor, LARGEST_SAMPLE } from '../../bounds/hanson-koopmans.js';
import { Confidence, Coverage, refuseInput, Strengths } from '../inputs.js';
import { defineMethod } from '../method.js';

export const hansonKoopmansMethod = defineMethod({
  method: 'hanson-koopmans',
  question: 'What lower bound needs no distribution, when there are too few specimens for the weakest to be one?',
  inputs: z
    .strictObject({
      values: Strengths.max(LARGEST_SAMPLE).optional().describe('strengths in any one unit, all known exactly'),
      n: z.number().int().min(0).max(LARGEST_SAMPLE).optional().describe('number of specimens, in place of values'),
      coverage: Coverage.describe('share of the population above the bound, a fraction between 0 and 1'),
      confidence: Confidence.describe('one-sided, a fraction between 0 and 1'),
      rank: z
        .number()
        .int()
        .min(2)
        .optional()
        .describe('which strength, from the weakest, stands beside the weakest; left out, the usual one for this n'),
    })
    .superRefine(({ values, n, rank }, context) => {
      if (values === undefined && n === undefined)
        refuseInput(context, ['values'], 'body.missing-field', 'values, or n in their place, are needed here');
      if (values !== undefined && n !== undefined)
        refuseInput(context, ['n'], 'body.unknown-field', 'n stands in place of values; give one of the two');
      const count = values?.length ?? n ?? 0;
      if (rank !== undefined && count >= 2 && rank > count)
        refuseInput(context, ['rank'], 'body.range', `${count} strengths have no rank ${rank}`);
    })
    .meta({ oneOf: [{ required: ['values'] }, { required: ['n'] }] }),
  result: {
    rank: 'which strength, from the weakest, stands beside the weakest',
    k: 'bound = x(rank) (x(1) / x(rank))^k, no unit',
    bound: 'unit of the values; left out where only n was given',
  },
  assumptions: [
    'specimens are independent and drawn at random; every strength is above 0 and known exactly',
    'ln F is a concave function of ln x in the lower tail, F being the share failing at x (true of Weibull and lognormal ' +
      'strength everywhere, of normal strength above half its mean)',
    'conservative: the confidence is at least the one stated',
  ],
  source:
    'Hanson and Koopmans (1964), Ann. Math. Statist. 35, 755-768; Vangel (1994), Commun. Statist. Simul. Comput. 23, ' +
    '1137-1154; MIL-HDBK-17-1F, volume 1, chapter 8',
  run({ values, n, ...question }) {
    if (values !== undefined) return hansonKoopmansBound(values, question);
    if (n === undefined) throw new Error('the inputs schema lets neither values nor n be missing');
    const rank = question.rank === undefined || question.rank <= n ? question.rank : undefined;
    return hansonKoopmansFactor({ ...question, n, rank });
  },
});

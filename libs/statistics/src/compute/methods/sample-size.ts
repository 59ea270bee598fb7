import { Distribution, Fraction } from '@breakbook/lab';
import { z } from 'zod';
import { sizeFor } from '../../sizing/sample-size.js';
import { Confidence, Coverage } from '../inputs.js';
import { Above0, Alpha, Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

const Sides = z.literal([1, 2]);
const Power = Fraction.describe('chance to succeed, a fraction between 0 and 1');
const plan = { acceptable: Fraction, producerRisk: Fraction, rejectable: Fraction, consumerRisk: Fraction };

export const sampleSizeMethod = defineMethod({
  method: 'sample-size',
  question: 'How many specimens are needed for this question to be answered as surely as asked?',
  inputs: z
    .strictObject({
      for: z
        .discriminatedUnion('kind', [
          z.strictObject({ kind: z.literal('mean-limits'), halfWidth: Above0, sd: Above0, confidence: Confidence }),
          z.strictObject({
            kind: z.literal('one-sample'),
            shift: Above0,
            sd: Above0,
            alpha: Alpha,
            power: Power,
            sides: Sides,
          }),
          z.strictObject({
            kind: z.literal('two-sample'),
            difference: Above0,
            sd: Above0,
            alpha: Alpha,
            power: Power,
            sides: Sides,
          }),
          z.strictObject({ kind: z.literal('variables-plan'), ...plan }),
          z.strictObject({ kind: z.literal('attribute-plan'), ...plan }),
          z.strictObject({
            kind: z.literal('tolerance-bound'),
            coverage: Coverage,
            confidence: Confidence,
            distribution: Distribution,
            meanOverLimit: z.number().min(1e-6).max(1e6),
            cv: z.number().min(1e-4).max(10),
            power: Power,
          }),
        ])
        .describe(
          'mean-limits {halfWidth, sd, confidence (two-sided)}; one-sample {shift, sd, alpha, power, sides}; ' +
            'two-sample {difference, sd, alpha, power, sides}; variables-plan and attribute-plan {acceptable, producerRisk, ' +
            'rejectable, consumerRisk} (shares below the limit and largest risks, fractions); tolerance-bound {coverage, ' +
            'confidence, distribution, meanOverLimit, cv, power} (the bound is to lie above the limit)',
        ),
      seed: Seed.describe('of the simulated samples, for Weibull bounds; 1 if left out'),
      replicates: z
        .number()
        .int()
        .min(2)
        .max(10_000)
        .optional()
        .describe('how many samples of each size are simulated, for Weibull bounds; 1000 if left out'),
    })
    .superRefine(({ for: goal, seed, replicates }, context) => {
      const refuse = (path: PropertyKey[], code: string, message: string) =>
        context.addIssue({ code: 'custom', path, message, params: { code } });
      if (goal.kind === 'variables-plan' || goal.kind === 'attribute-plan') {
        if (!(goal.acceptable < goal.rejectable))
          refuse(['for', 'acceptable'], 'body.range', 'acceptable must be less than rejectable');
        if (goal.producerRisk + goal.consumerRisk >= 1)
          refuse(['for', 'producerRisk'], 'body.range', 'the two risks together must be less than 1');
      }
      const simulated = goal.kind === 'tolerance-bound' && goal.distribution === 'weibull';
      if (!simulated && seed !== undefined) refuse(['seed'], 'body.unknown-field', 'nothing is simulated here');
      if (!simulated && replicates !== undefined)
        refuse(['replicates'], 'body.unknown-field', 'nothing is simulated here');
    }),
  result: {
    n: 'number of specimens; in each group for two-sample',
    k: 'acceptance constant (variables-plan) or tolerance factor (normal and lognormal tolerance-bound)',
    c: 'allowed failures (attribute-plan)',
    achieved: 'what n really gives: halfWidth, power, or producerRisk and consumerRisk',
    fractionBelow: 'tolerance-bound: share of the expected population below the limit, a fraction',
    simulationError: 'standard error of the power, for Weibull bounds',
    seed: 'for Weibull bounds: as given or 1',
    replicates: 'for Weibull bounds: as given or 1000',
    for: 'as given',
  },
  assumptions: [
    'specimens are drawn at random, and scatter comes out as expected',
    'mean-limits, one-sample, two-sample, variables-plan: values are normal',
  ],
  source:
    'Cohen (1988), Statistical Power Analysis; Lieberman and Resnikoff (1955), J. Amer. Statist. Assoc. 50, 457-516; Guenther (1969), J. Qual. Technol. 1, 105-109; Faulkenberry and Weeks (1968), Technometrics 10, 343-348',
  run: ({ for: goal, seed, replicates }) => sizeFor(goal, { seed, replicates }),
});

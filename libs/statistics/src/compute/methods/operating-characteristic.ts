import { Distribution } from '@breakbook/lab';
import { z } from 'zod';
import { operatingCharacteristic } from '../../sizing/operating-characteristic.js';
import { Confidence, Coverage, LotSize } from '../inputs.js';
import { Seed } from '../inputs-of-comparison.js';
import { defineMethod } from '../method.js';

const Size = z.number().int().min(1).max(1_000_000);
/** A sample of so many in each of a thousand simulated ones takes about a minute. */
const LARGEST_SIMULATED = 2000;

export const operatingCharacteristicMethod = defineMethod({
  method: 'operating-characteristic',
  question: 'How likely is a lot or process accepted, of which so large a share lies below the limit?',
  inputs: z
    .strictObject({
      criterion: z
        .discriminatedUnion('kind', [
          z.strictObject({
            kind: z.literal('attribute'),
            n: Size,
            c: z.number().int().min(0).max(1_000_000),
            lotSize: LotSize,
          }),
          z.strictObject({
            kind: z.literal('variables'),
            n: Size.min(2),
            k: z.number().min(-1e6).max(1e6),
          }),
          z.strictObject({
            kind: z.literal('tolerance-bound'),
            n: Size,
            coverage: Coverage,
            confidence: Confidence,
            distribution: Distribution,
          }),
        ])
        .describe(
          'attribute {n, c, lotSize?}: at most c of n fail; variables {n, k}: mean - k s at or above the limit; ' +
            'tolerance-bound {n, coverage, confidence, distribution}: the lower bound at or above the limit',
        ),
      fractionsBelow: z
        .array(z.number().min(0).max(1))
        .max(1000)
        .describe('shares of the population below the limit, fractions; of a lot, whole numbers of its units'),
      seed: Seed.describe('of the simulated samples, for Weibull bounds; 1 if left out'),
      replicates: z
        .number()
        .int()
        .min(2)
        .max(100_000)
        .optional()
        .describe('how many samples are simulated, for Weibull bounds; 1000 if left out'),
    })
    .superRefine(({ criterion, fractionsBelow, seed, replicates }, context) => {
      const refuse = (path: PropertyKey[], code: string, message: string) =>
        context.addIssue({ code: 'custom', path, message, params: { code } });
      if (criterion.kind === 'attribute' && criterion.lotSize !== undefined) {
        const { n, lotSize } = criterion;
        if (n > lotSize)
          refuse(['criterion', 'n'], 'body.range', `${n} specimens cannot come from a lot of ${lotSize}`);
        for (const [index, fraction] of fractionsBelow.entries()) {
          const units = Math.round(fraction * lotSize);
          if (Math.abs(fraction * lotSize - units) > 1e-9 * lotSize)
            refuse(
              ['fractionsBelow', index],
              'body.range',
              `a share of ${fraction} of a lot of ${lotSize} is no whole number of units; ask for ${units / lotSize}`,
            );
        }
      }
      const simulated = criterion.kind === 'tolerance-bound' && criterion.distribution === 'weibull';
      if (!simulated && seed !== undefined) refuse(['seed'], 'body.unknown-field', 'nothing is simulated here');
      if (!simulated && replicates !== undefined)
        refuse(['replicates'], 'body.unknown-field', 'nothing is simulated here');
      if (simulated && criterion.n * (replicates ?? 1000) > 1000 * LARGEST_SIMULATED)
        refuse(
          ['criterion', 'n'],
          'body.range',
          `${replicates ?? 1000} samples of ${criterion.n} take too long; their product may be ${1000 * LARGEST_SIMULATED} at most`,
        );
    }),
  result: {
    acceptance: 'chance of acceptance for each share, fractions',
    simulationError: 'standard error of each, for Weibull bounds',
    seed: 'for Weibull bounds: as given or 1',
    replicates: 'for Weibull bounds: as given or 1000',
    criterion: 'as given',
    fractionsBelow: 'as given',
  },
  assumptions: [
    'specimens are drawn at random',
    'variables and bounds: the distribution is the one declared; a lognormal bound is a normal one of ln strength',
  ],
  source: 'ISO 2859-1; ISO 3951-1:2013; Lieberman and Resnikoff (1955), J. Amer. Statist. Assoc. 50, 457-516',
  run: ({ criterion, fractionsBelow, seed, replicates }) =>
    operatingCharacteristic(criterion, fractionsBelow, { seed, replicates }),
});

import { Distribution } from '@breakbook/lab';
import { z } from 'zod';
import type { Basis } from '../prediction/future.js';
import { AnySample, checkSample, SAMPLE } from './inputs.js';
import { Above0, Finite, List } from './inputs-of-comparison.js';

/** What a prediction may rest on; one of three. */
export const basisInputs = {
  values: List.optional().describe('strengths of the units tested, numbers in any one unit'),
  sample: AnySample.optional().describe(`in place of values: ${SAMPLE}`),
  n: z
    .number()
    .int()
    .min(0)
    .max(1_000_000)
    .optional()
    .describe('number of units tested, with mean and sd, in place of values'),
  mean: Finite.optional().describe('their mean, unit of strength; of ln strength if lognormal'),
  sd: Above0.optional().describe(
    'their standard deviation (divisor n - 1), unit of strength; of ln strength if lognormal',
  ),
};
export const Declared = Distribution.describe('declared before the test');
export const FutureUnits = z.number().int().min(1).max(100_000).describe('how many future units');

type Given = {
  values?: number[] | undefined;
  sample?: z.infer<typeof AnySample> | undefined;
  n?: number | undefined;
  mean?: number | undefined;
  sd?: number | undefined;
};

/** Reports a basis that is missing, given twice, or holds what its distribution cannot. */
export function checkBasis(given: Given, distribution: string, context: Pick<z.RefinementCtx, 'addIssue'>): void {
  const { values, sample, n, mean, sd } = given;
  const refuse = (path: string, code: string, message: string) =>
    context.addIssue({ code: 'custom', path: [path], message, params: { code } });
  const summed = n !== undefined || mean !== undefined || sd !== undefined;
  if (values === undefined && sample === undefined && !summed)
    refuse(
      'values',
      'body.missing-field',
      'values, or sample, or n with mean and sd, are needed here and none was found',
    );
  if (values !== undefined && sample !== undefined)
    refuse('sample', 'body.unknown-field', 'sample stands in place of values; give one of the two');
  if ((values !== undefined || sample !== undefined) && summed)
    refuse(
      n !== undefined ? 'n' : mean !== undefined ? 'mean' : 'sd',
      'body.unknown-field',
      'n, mean and sd stand in place of values; give one or the other',
    );
  else if (summed)
    for (const [name, value] of Object.entries({ n, mean, sd }))
      if (value === undefined)
        refuse(name, 'body.missing-field', `${name} is needed here, with n, mean and sd in place of values`);
  const positive = distribution === 'weibull' || distribution === 'lognormal';
  if (sample !== undefined) checkSample(sample, ['sample'], context, { positive });
  for (const [index, value] of (values ?? []).entries())
    if (positive && !(value > 0))
      context.addIssue({
        code: 'custom',
        path: ['values', index],
        message: `a strength here must be above 0; got ${value}`,
        params: { code: 'body.range' },
      });
}

/** What a checked request rests on. */
export function basisOf({ values, sample, n, mean, sd }: Given): Basis {
  if (n !== undefined && mean !== undefined && sd !== undefined) return { n, mean, sd };
  return { sample: sample ?? { exact: values ?? [] } };
}

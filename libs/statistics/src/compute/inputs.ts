import { Fraction, Sample } from '@breakbook/lab';
import { z } from 'zod';

/** Inputs that several methods share, each described once. */
export const Values = z.array(z.number()).describe('numbers in any one unit, in the order they were found');
export const Coverage = Fraction.describe('share of the population, a fraction between 0 and 1');
export const Confidence = Fraction.describe('a fraction between 0 and 1');
export const Reliability = Fraction.describe('share of the population that holds, a fraction between 0 and 1');
export const LotSize = z
  .number()
  .int()
  .min(1)
  .describe('units in the lot, those tested included, where the claim is about this lot alone; left out: the process');

export const AnySample = Sample.describe(
  'numbers in any one unit: exact, atLeast (held so much, not broken), atMost (broke at or before), ' +
    'between (pairs: held the first, broke by the second); each may be left out',
);

type Issues = Pick<z.RefinementCtx, 'addIssue'>;

/** Reports what a sample of strengths cannot hold: an interval that does not run upward, and numbers not above 0. */
export function checkSample(sample: Sample, at: PropertyKey[], context: Issues, { positive }: { positive: boolean }) {
  const refuse = (path: PropertyKey[], message: string) =>
    context.addIssue({ code: 'custom', path: [...at, ...path], message, params: { code: 'body.range' } });
  sample.between?.forEach(([low, high], index) => {
    if (!(high > low)) refuse(['between', index], `an interval runs upward; got ${low} to ${high}`);
    else if (positive && low < 0) refuse(['between', index, 0], `must be 0 or more; got ${low}`);
  });
  if (!positive) return;
  for (const key of ['exact', 'atMost'] as const)
    sample[key]?.forEach((value, index) => {
      if (!(value > 0)) refuse([key, index], `a strength here must be above 0; got ${value}`);
    });
  sample.atLeast?.forEach((value, index) => {
    if (value < 0) refuse(['atLeast', index], `a strength here must be 0 or more; got ${value}`);
  });
}

/** How many specimens a sample holds. */
export function countOf({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): number {
  return exact.length + atLeast.length + atMost.length + between.length;
}

import { Fraction, Sample } from '@breakbook/lab';
import { z } from 'zod';

/** No quantity of a lab comes near it, and squares of numbers within it are still numbers. */
const LARGEST = 1e100;

/** Inputs that several methods share, each described once. */
export const Values = z
  .array(z.number().min(-LARGEST).max(LARGEST))
  .describe('numbers in any one unit, in the order they were found');
export const Coverage = Fraction.describe('share of the population, a fraction between 0 and 1');
export const Confidence = Fraction.describe('a fraction between 0 and 1');
export const Reliability = Fraction.describe('share of the population that holds, a fraction between 0 and 1');
/** Strengths of specimens that all broke at a value known exactly; each use describes them. */
export const Strengths = z.array(
  z
    .number()
    .min(1 / LARGEST)
    .max(LARGEST),
);
export const LotSize = z
  .number()
  .int()
  .min(1)
  .max(1_000_000_000)
  .optional()
  .describe('units in the lot, those tested included, where the claim is about this lot alone; left out: the process');

export const SAMPLE =
  'numbers in any one unit: exact, atLeast (held so much, not broken), atMost (broke at or before), ' +
  'between (pairs: held the first, broke by the second); each may be left out';
export const AnySample = Sample.describe(SAMPLE);

type Issues = Pick<z.RefinementCtx, 'addIssue'>;

/** Reports one input that cannot be used, with its code of the closed list. */
export function refuseInput(
  context: Issues,
  path: PropertyKey[],
  code: 'body.range' | 'body.missing-field' | 'body.unknown-field',
  message: string,
): void {
  context.addIssue({ code: 'custom', path, message, params: { code } });
}

/** Reports what a sample of strengths cannot hold: an interval that does not run upward, and numbers not above 0. */
export function checkSample(sample: Sample, at: PropertyKey[], context: Issues, { positive }: { positive: boolean }) {
  const refuse = (path: PropertyKey[], message: string) =>
    refuseInput(context, [...at, ...path], 'body.range', message);
  const check = (path: PropertyKey[], value: number, zeroToo: boolean) => {
    if (Math.abs(value) > LARGEST) refuse(path, `no strength is as large as ${value}`);
    else if (positive && value === 0 && zeroToo) return;
    else if (positive && !(value >= 1 / LARGEST)) refuse(path, `a strength here must be above 0; got ${value}`);
  };
  for (const key of ['exact', 'atMost', 'atLeast'] as const)
    for (const [index, value] of (sample[key] ?? []).entries()) check([key, index], value, key === 'atLeast');
  for (const [index, [low, high]] of (sample.between ?? []).entries()) {
    check(['between', index, 0], low, true);
    check(['between', index, 1], high, false);
    if (!(high > low)) refuse(['between', index], `an interval runs upward; got ${low} to ${high}`);
  }
}

/** How many specimens a sample holds. */
export function countOf({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): number {
  return exact.length + atLeast.length + atMost.length + between.length;
}

/** How many of them broke. */
export function failuresOf({ exact = [], atMost = [], between = [] }: Sample): number {
  return exact.length + atMost.length + between.length;
}

import { Fraction } from '@breakbook/lab';
import { z } from 'zod';

/** No quantity of a lab comes near it or its inverse, and ratios of squares of numbers between are still numbers. */
const LARGEST = 1e50;
export const Finite = z
  .number()
  .min(-LARGEST)
  .max(LARGEST)
  .refine((value) => value === 0 || Math.abs(value) >= 1 / LARGEST, {
    error: `is nearer to 0 than ${1 / LARGEST}, as no quantity of a lab is; write 0 or another unit`,
    params: { code: 'body.range' },
  });
export const Above0 = z
  .number()
  .min(1 / LARGEST)
  .max(LARGEST);

/** Inputs that tests, comparisons and charts share, each described once. */
export const List = z.array(Finite).max(1_000_000);
export const Groups = z.array(List).max(10_000).describe('one list of values for each group, all in one unit');
export const Alpha = Fraction.describe(
  'chance of calling out a difference where there is none, a fraction between 0 and 1',
);
export const Seed = z
  .number()
  .int()
  .min(0)
  .max(Number.MAX_SAFE_INTEGER)
  .optional()
  .describe('starts the random numbers; the same seed gives the same answer');

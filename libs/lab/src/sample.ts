import { z } from 'zod';

const Values = z.array(z.number()).optional();

/**
 * Strengths of several specimens, some known only from one side. All numbers are in one unit.
 * "At least" is a specimen that held that much and was not broken by the mode of interest.
 */
export const Sample = z.strictObject({
  exact: Values,
  atLeast: Values,
  atMost: Values,
  between: z.array(z.tuple([z.number(), z.number()])).optional(),
});
export type Sample = z.infer<typeof Sample>;

/** How a result is known. */
export const ResultKind = z.enum(['exact', 'atLeast', 'atMost', 'between']);
export type ResultKind = z.infer<typeof ResultKind>;

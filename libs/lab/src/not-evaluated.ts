import { z } from 'zod';

/**
 * The answer where a number cannot be computed honestly. It stands in place of the number,
 * never beside it: no NaN, null, 0 or false means "cannot say" anywhere in this house.
 */
export const NotEvaluated = z.strictObject({
  notEvaluated: z.strictObject({
    /** Why there is no number, in one sentence without a full stop. */
    because: z.string(),
    /** What would make it possible, in one sentence without a full stop. */
    possibleIf: z.string(),
  }),
});
export type NotEvaluated = z.infer<typeof NotEvaluated>;

export function notEvaluated(because: string, possibleIf: string): NotEvaluated {
  return { notEvaluated: { because, possibleIf } };
}

export function isNotEvaluated(answer: unknown): answer is NotEvaluated {
  return typeof answer === 'object' && answer !== null && 'notEvaluated' in answer;
}

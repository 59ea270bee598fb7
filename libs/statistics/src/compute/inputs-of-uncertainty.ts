import { z } from 'zod';
import type { Interval } from '../uncertainty/interval.js';
import { Above0, Finite } from './inputs-of-comparison.js';

export const Prior = z.strictObject({ mean: Finite, sd: Above0 });
export const Limits = z.strictObject({ lower: Finite.optional(), upper: Finite.optional() });

/** Reports an interval without any limit, or one that runs downward. */
export function checkUpward(
  { lower, upper }: Interval,
  at: PropertyKey[],
  context: Pick<z.RefinementCtx, 'addIssue'>,
): void {
  const refuse = (code: string, message: string) =>
    context.addIssue({ code: 'custom', path: [...at, 'lower'], message, params: { code } });
  if (lower === undefined && upper === undefined)
    refuse('body.missing-field', 'lower, or upper, or both are needed here and none was found');
  if (lower !== undefined && upper !== undefined && !(lower < upper))
    refuse('body.range', `an interval runs upward; got ${lower} to ${upper}`);
}

import { z } from 'zod';
import { PlanRef } from './plans.js';
import { Key, Revision } from './text.js';

/** A limit as it is not: another number in its own unit, to see what would follow. */
export const ChangedLimit = z.strictObject({
  limit: Key,
  revision: Revision,
  /** In the unit of the limit. `value` of one with one side, `lower` and `upper` of one with two. */
  value: z.number().optional(),
  lower: z.number().optional(),
  upper: z.number().optional(),
});
export type ChangedLimit = z.infer<typeof ChangedLimit>;

/** What is asked of a lot under another plan revision, or under limits that are not the plan's. */
export const WhatIfAsked = z
  .strictObject({ plan: PlanRef.optional(), limits: z.array(ChangedLimit).min(1).max(20).optional() })
  .refine(({ plan, limits }) => plan !== undefined || limits !== undefined, {
    error: 'changes nothing: name another plan revision in plan, or a limit with another value in limits',
  });
export type WhatIfAsked = z.infer<typeof WhatIfAsked>;

import { z } from 'zod';
import { Key, Paragraph } from './text.js';

/** Why more runs may be made than a plan line asks for. That a result was low is none of them. */
export const RetestGround = z.enum([
  'invalid run',
  'assignable cause found',
  'asked for from outside',
  'for information, outside the claim',
]);
export type RetestGround = z.infer<typeof RetestGround>;

/** So many runs of one plan line, and why. */
export const NewRetest = z.strictObject({
  line: Key,
  runs: z.number().int().min(1).max(20),
  ground: RetestGround,
  reason: Paragraph,
});
export type NewRetest = z.infer<typeof NewRetest>;

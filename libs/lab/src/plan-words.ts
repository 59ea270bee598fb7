import { z } from 'zod';

/** A plan as sentences, for whoever writes, approves or reads it. */
export const PlanInWords = z.strictObject({
  claim: z.array(z.string()),
  lines: z.array(z.strictObject({ line: z.string(), title: z.string(), says: z.array(z.string()) })),
});
export type PlanInWords = z.infer<typeof PlanInWords>;

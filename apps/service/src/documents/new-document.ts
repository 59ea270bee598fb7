import { z } from 'zod';

/** A document to be made of an evaluation. */
export const NewDocument = z.strictObject({
  kind: z.literal('lot test report'),
  paper: z.enum(['A4', 'Letter']).default('A4'),
});
export type NewDocument = z.infer<typeof NewDocument>;

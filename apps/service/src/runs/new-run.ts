import { PlanRef, Run } from '@breakbook/lab';
import { z } from 'zod';

/**
 * A run as it is sent: its files come beside it, its validity is decided later by somebody else, and the plan it was
 * made under is named. Moments of its record are moved when the record can be looked at.
 */
export const NewRun = Run.omit({ files: true, validity: true, receivedAt: true, instants: true, photos: true }).extend({
  plan: PlanRef,
});
export type NewRun = z.infer<typeof NewRun>;

/** The form a run comes in: what is said of it, and its files, of which a run keyed from a table has none. */
export const RunForm = z.strictObject({
  run: NewRun,
  file: z.array(z.string().meta({ wire: { type: 'string', format: 'binary' } })),
});

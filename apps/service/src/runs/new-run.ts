import { PlanRef, Run } from '@breakbook/lab';
import { z } from 'zod';

/**
 * A run as it is sent: its files come beside it, its validity is decided later by somebody else, and the plan it was
 * made under is named.
 */
export const NewRun = Run.omit({ files: true, validity: true }).extend({ plan: PlanRef });
export type NewRun = z.infer<typeof NewRun>;

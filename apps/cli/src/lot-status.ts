import { EXIT, type LotResult } from '@breakbook/lab';

/** How a command ends that came to this outcome. */
export const STATUS: Record<LotResult['outcome'], number> = {
  'meets the plan': EXIT.done,
  'does not meet the plan': EXIT.doesNotMeet,
  undecided: EXIT.undecided,
};

import type { Check, ProblemCode } from '@breakbook/lab';

/** A check, with the code of the flag it raises on the run where it did not pass. */
export interface Finding {
  check: Check;
  signal?: ProblemCode;
}

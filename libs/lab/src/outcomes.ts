import { z } from 'zod';

/** The words in which this house speaks of outcomes. They are stored, shown and printed as they stand here. */

export const Validity = z.enum(['valid', 'valid with deviation', 'invalid', 'void']);
export type Validity = z.infer<typeof Validity>;

export const VerdictOutcome = z.enum([
  'conforms',
  'conforms conditionally',
  'does not conform conditionally',
  'does not conform',
  'not evaluated',
]);
export type VerdictOutcome = z.infer<typeof VerdictOutcome>;

/** The words of ILAC-G8:09/2019 (4.2), printed beside ours. */
export const ILAC_WORDS: Record<VerdictOutcome, string> = {
  conforms: 'pass',
  'conforms conditionally': 'conditional pass',
  'does not conform conditionally': 'conditional fail',
  'does not conform': 'fail',
  'not evaluated': 'not evaluated',
};

export const CriterionOutcome = z.enum(['met', 'not met', 'not yet decidable', 'not evaluated']);
export type CriterionOutcome = z.infer<typeof CriterionOutcome>;

export const LotOutcome = z.enum(['meets the plan', 'does not meet the plan', 'undecided']);
export type LotOutcome = z.infer<typeof LotOutcome>;

export const DispositionOutcome = z.enum(['accepted', 'accepted on concession', 'not accepted']);
export type DispositionOutcome = z.infer<typeof DispositionOutcome>;

export const CertificateState = z.enum(['in force', 'on hold', 'superseded', 'withdrawn']);
export type CertificateState = z.infer<typeof CertificateState>;

/** Exit statuses of every command. */
export const EXIT = {
  done: 0,
  doesNotMeet: 1,
  badInput: 2,
  undecided: 3,
  refused: 4,
  away: 5,
  ourFault: 70,
} as const;

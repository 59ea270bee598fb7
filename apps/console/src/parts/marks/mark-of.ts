import {
  type Check,
  type CriterionOutcome,
  type LotOutcome,
  type Reading,
  type Validity,
  type VerdictOutcome,
} from '@breakbook/lab';

/** The five marks; each has its form and its tone, so that nothing is told by colour alone. */
export type MarkForm = 'disc' | 'disc with a gap' | 'ring with a bar' | 'square on its corner' | 'ring';

/** Every word of an outcome that a sheet shows with a mark. */
export type OutcomeWord =
  | LotOutcome
  | CriterionOutcome
  | VerdictOutcome
  | Validity
  | 'not decided'
  | Check['outcome']
  | Reading['proposedValidity'];

const FORMS: Record<OutcomeWord, MarkForm> = {
  'meets the plan': 'disc',
  met: 'disc',
  conforms: 'disc',
  valid: 'disc',
  pass: 'disc',
  'conforms conditionally': 'disc with a gap',
  'valid with deviation': 'disc with a gap',
  flag: 'disc with a gap',
  'does not conform conditionally': 'ring with a bar',
  invalid: 'ring with a bar',
  'needs a look': 'ring with a bar',
  'does not meet the plan': 'square on its corner',
  'not met': 'square on its corner',
  'does not conform': 'square on its corner',
  fail: 'square on its corner',
  undecided: 'ring',
  'not yet decidable': 'ring',
  'not evaluated': 'ring',
  'not decided': 'ring',
  void: 'ring',
};

export function markOf(word: OutcomeWord): MarkForm {
  return FORMS[word];
}

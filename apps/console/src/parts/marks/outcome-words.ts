import { type Outcome } from '@breakbook/figures';
import { type Check, type Reading, type RunJudgement } from '@breakbook/lab';

/** Words about a run that carry a sign beside those of `outcomeSign`. */
type RunWord = RunJudgement['validity'] | Check['outcome'] | Reading['proposedValidity'];

/** Every word that a sheet shows with a sign. */
export type OutcomeWord = Outcome | RunWord;

/** A run that counts, counts with a remark, does not count, or is open wears the sign of a result that stands so. */
const LIKE: Record<Exclude<RunWord, Outcome>, Outcome> = {
  valid: 'conforms',
  pass: 'conforms',
  'valid with deviation': 'conforms conditionally',
  flag: 'conforms conditionally',
  invalid: 'does not conform conditionally',
  'needs a look': 'does not conform conditionally',
  fail: 'does not conform',
  void: 'superseded',
  'not decided': 'undecided',
};

/** The outcome whose sign this word wears. */
export function likeOutcome(word: OutcomeWord): Outcome {
  return Object.hasOwn(LIKE, word) ? LIKE[word as keyof typeof LIKE] : (word as Outcome);
}

import type { Outcome } from '@breakbook/figures';
import type { Check, COMPARISON_LEVELS, Reading, RunJudgement } from '@breakbook/lab';

/** Words about a run that carry a sign beside those of `outcomeSign`. */
type RunWord = RunJudgement['validity'] | Check['outcome'] | Reading['proposedValidity'];

/** How well items agree with a reference. */
type LevelWord = (typeof COMPARISON_LEVELS)[keyof typeof COMPARISON_LEVELS];

/** Every word that a sheet shows with a sign. */
export type OutcomeWord = Outcome | RunWord | LevelWord;

/** A run that counts, counts with a remark, does not count, or is open wears the sign of a result that stands so. */
const LIKE: Record<Exclude<RunWord | LevelWord, Outcome>, Outcome> = {
  valid: 'conforms',
  pass: 'conforms',
  'valid with deviation': 'conforms conditionally',
  flag: 'conforms conditionally',
  invalid: 'does not conform conditionally',
  'needs a look': 'does not conform conditionally',
  fail: 'does not conform',
  void: 'superseded',
  'not decided': 'undecided',
  'not consistent, physical': 'does not conform',
  'not consistent, measured': 'does not conform',
  inconclusive: 'undecided',
  consistent: 'conforms',
  'no comparison': 'does not conform conditionally',
};

/** The outcome whose sign this word wears. */
export function likeOutcome(word: OutcomeWord): Outcome {
  return Object.hasOwn(LIKE, word) ? LIKE[word as keyof typeof LIKE] : (word as Outcome);
}

import { isNotEvaluated, LotOutcome } from '@breakbook/lab';
import type { LotInList } from '../../client/answers.js';

/** "12 in all: 9 meet their plan, 2 undecided, 1 not evaluated": how many lots there are and how they stand. */
export function byOutcome(lots: readonly Pick<LotInList, 'evaluation'>[]): string {
  if (lots.length === 0) return '';
  const standing = (outcome: LotOutcome) =>
    lots.filter(({ evaluation }) => !isNotEvaluated(evaluation) && evaluation.outcome === outcome).length;
  const open = lots.filter(({ evaluation }) => isNotEvaluated(evaluation)).length;
  const counts = [
    ...LotOutcome.options.map((outcome) => ({ n: standing(outcome), words: WORDS[outcome] })),
    { n: open, words: () => 'not evaluated' },
  ];
  const told = counts.filter(({ n }) => n > 0).map(({ n, words }) => `${n} ${words(n)}`);
  return `${lots.length} in all: ${told.join(', ')}`;
}

const WORDS: Record<LotOutcome, (n: number) => string> = {
  'meets the plan': (n) => (n === 1 ? 'meets its plan' : 'meet their plan'),
  'does not meet the plan': (n) => (n === 1 ? 'does not meet its plan' : 'do not meet their plan'),
  undecided: () => 'undecided',
};

import { type ComparisonLevel, isNotEvaluated } from '@breakbook/lab';
import { surelyOrderedPairs } from '@breakbook/statistics';
import type { Ends } from '../ends.js';
import { chance } from '../words.js';
import type { TwoGroups } from './group-values.js';
import { askedMargin, type MarginQuestion, marginSentence } from './margins.js';
import { type AtLevel, reaches, type Tested, undecided } from './tested.js';

/**
 * The same where some values are known from one side only: by the pairs that are ordered whatever those values were, the
 * items moved by the margin. By how much the groups differ is then not told.
 */
export function marginByRanks(question: MarginQuestion, { first, second }: TwoGroups): Tested {
  const { low, high, words } = askedMargin(question);
  const [items, reference] = [second.map(asWithin), first.map(asWithin)];
  // An open end asks nothing.
  const surely = (above: typeof items, below: typeof items, shift: number) =>
    Number.isFinite(shift) ? surelyOrderedPairs(above, below, shift) : undefined;
  const within = [surely(items, reference, -low), surely(reference, items, high)];
  const outside = [surely(reference, items, low), surely(items, reference, -high)];
  const none = [...within, ...outside].find((one) => one !== undefined && isNotEvaluated(one));
  if (none && isNotEvaluated(none)) return { p: none, at: () => undecided(question, none) };
  const chances = (tests: typeof within) => tests.flatMap((one) => (one && !isNotEvaluated(one) ? [one.p] : []));
  const p = Math.max(...chances(within));
  const pBeyond = Math.min(...chances(outside));
  return {
    p,
    at(level): AtLevel {
      const finding: ComparisonLevel = reaches(p, level) ? 'D' : reaches(pBeyond, level) ? 'B' : 'C';
      const numbers = `p = ${chance(finding === 'B' ? pBeyond : p)}, by the pairs surely ordered, since some values are known from one side only`;
      const sentence = marginSentence(question, words, finding, numbers);
      return {
        finding,
        sentence,
        each: question.items.map(({ specimen }) => ({ specimen, level: finding, sentence })),
        steps: [
          {
            question: 'Is the difference surely within the margin declared?',
            numbers: {
              p,
              'p beyond': pBeyond,
              level,
              pairs: items.length * reference.length,
              ...(Number.isFinite(low) ? { 'lower margin': low } : {}),
              ...(Number.isFinite(high) ? { 'upper margin': high } : {}),
            },
            answer: sentence,
            formula: 'P(U >= pairs in which an item, moved by the margin, surely lies beyond a reference value)',
            source: 'distribution of u: Mann and Whitney (1947), Ann. Math. Statist. 18, 50-60',
          },
        ],
      };
    },
  };
}

function asWithin({ low, high }: Ends): { from: number; to: number } {
  return { from: low, to: high };
}

import { notEvaluated } from '@breakbook/lab';
import { expect, it } from 'vitest';
import type { LotInList } from '../../client/answers.js';
import { byOutcome } from './by-outcome.js';

const one = (outcome: 'meets the plan' | 'undecided'): Pick<LotInList, 'evaluation'> => ({
  evaluation: { plan: { plan: 'P', revision: 1 }, outcome, sentence: '' },
});

it('counts the lots by how they stand', () => {
  const open = { evaluation: notEvaluated('never evaluated', 'evaluated') };
  expect(byOutcome([one('meets the plan'), one('undecided'), one('meets the plan'), open])).toBe(
    '4 in all: 2 meet their plan, 1 undecided, 1 not evaluated',
  );
  expect(byOutcome([])).toBe('');
});

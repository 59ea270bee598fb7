// @vitest-environment jsdom
import { CriterionOutcome, LotOutcome, Validity, VerdictOutcome } from '@breakbook/lab';
import { cleanup, render } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { markOf, type OutcomeWord } from './mark-of.js';
import { Outcome } from './outcome.js';

afterEach(cleanup);

const WORDS: OutcomeWord[] = [
  ...LotOutcome.options,
  ...CriterionOutcome.options,
  ...VerdictOutcome.options,
  ...Validity.options,
  'not decided',
];

describe('an outcome', () => {
  it.each(WORDS)('says "%s" in words beside a mark that only eyes see', (word) => {
    const { container } = render(<Outcome word={word} />);
    expect(container.textContent).toBe(word);
    expect(container.querySelector('svg')?.getAttribute('aria-hidden')).toBe('true');
    expect(container.querySelector('svg')?.childElementCount).toBe(1);
  });

  it('never gives a good and a bad outcome the same form', () => {
    const good: OutcomeWord[] = ['meets the plan', 'met', 'conforms', 'valid'];
    const bad: OutcomeWord[] = ['does not meet the plan', 'not met', 'does not conform', 'invalid'];
    const open: OutcomeWord[] = ['undecided', 'not yet decidable', 'not evaluated', 'not decided'];
    const forms = (words: OutcomeWord[]) => new Set(words.map(markOf));
    expect(shared(forms(good), forms(bad))).toBe(0);
    expect(shared(forms(good), forms(open))).toBe(0);
    expect(shared(forms(bad), forms(open))).toBe(0);
  });
});

function shared<T>(a: Set<T>, b: Set<T>): number {
  return [...a].filter((one) => b.has(one)).length;
}

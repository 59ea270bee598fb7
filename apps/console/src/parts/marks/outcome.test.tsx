// @vitest-environment jsdom
import { outcomeSign } from '@breakbook/figures';
import { CriterionOutcome, LotOutcome, Validity, VerdictOutcome } from '@breakbook/lab';
import { cleanup, render } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { Outcome } from './outcome.js';
import { likeOutcome, type OutcomeWord } from './outcome-words.js';

afterEach(cleanup);

const CHECKS: OutcomeWord[] = ['pass', 'flag', 'fail', 'not evaluated'];
const VALIDITIES: OutcomeWord[] = [...Validity.options, 'not decided'];
const WORDS = new Set<OutcomeWord>([
  ...LotOutcome.options,
  ...CriterionOutcome.options,
  ...VerdictOutcome.options,
  ...VALIDITIES,
  ...CHECKS,
]);

describe('an outcome', () => {
  it.each([...WORDS])('says "%s" in words beside a sign that only eyes see', (word) => {
    const { container } = render(<Outcome word={word} />);
    expect(container.textContent).toBe(word);
    expect(container.querySelector('svg')?.getAttribute('aria-hidden')).toBe('true');
    expect(container.querySelectorAll('svg path').length).toBeGreaterThan(0);
  });

  it('tells a run that counts from one that does not, and a passed check from a failed one, by form', () => {
    const form = (word: OutcomeWord) => outcomeSign(likeOutcome(word), { at: [8, 8], radius: 6 })[0]?.part;
    expect(new Set((['valid', 'valid with deviation', 'invalid', 'not decided'] as const).map(form)).size).toBe(4);
    expect(new Set(CHECKS.map(form)).size).toBe(4);
  });
});

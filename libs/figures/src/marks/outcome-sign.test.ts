import { CertificateState, CriterionOutcome, DispositionOutcome, LotOutcome, VerdictOutcome } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type Outcome, outcomeSign } from './outcome-sign.js';

const vocabularies = [VerdictOutcome, CriterionOutcome, LotOutcome, DispositionOutcome, CertificateState];

describe('outcomeSign', () => {
  it.each(vocabularies.flatMap(({ options }) => options as Outcome[]))('has a sign for "%s"', (outcome) => {
    expect(outcomeSign(outcome, { at: [10, 10], radius: 4 }).length).toBeGreaterThan(0);
  });

  it('tells outcomes of one vocabulary apart by form, without colour', () => {
    const forms = (outcomes: readonly Outcome[]) =>
      outcomes.map((outcome) => outcomeSign(outcome, { at: [10, 10], radius: 4 })[0]?.part);
    expect(new Set(forms(VerdictOutcome.options)).size).toBe(5);
    expect(new Set(forms(LotOutcome.options)).size).toBe(3);
    expect(new Set(forms(DispositionOutcome.options)).size).toBe(3);
    expect(new Set(forms(CertificateState.options)).size).toBe(4);
  });
});

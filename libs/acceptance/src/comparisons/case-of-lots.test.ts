import type { ComparisonDocument } from '@breakbook/lab';
import { expect, it } from 'vitest';
import { inventedComparison } from '../fixtures/invented-comparison.js';
import { caseOfLots, type EvaluatedLot } from './case-of-lots.js';
import { compareCase } from './compare-case.js';

const given = inventedComparison({
  reference: { A: [1500], B: [1510], C: [1490] },
  items: [1490],
  tool: { kind: 'prediction', distribution: 'normal', of: 'each', side: 'below', lots: 'vary' },
});
const { specimens: _, runs: __, ...document } = given;

/** A lot of which these specimens were tested, each in a run that is named after it. */
const lotOf = (lot: string, keys: readonly string[]) =>
  ({
    bundle: { lot: { lot }, specimens: keys.map((specimen) => ({ specimen, lot, origin: 'suspect' })) },
    evaluation: {
      refused: [],
      runs: keys.map((specimen) => ({
        run: { run: `of-${specimen}`, specimen, method: 'burst', methodRevision: 1, startedAt: '2026-05-05T08:00:00Z' },
        judgement: { results: [] },
      })),
    },
  }) as unknown as EvaluatedLot;

it('takes items, reference and alternative, and nothing that stands beside them in their lots', () => {
  const alternative = {
    ...(document.reference as NonNullable<ComparisonDocument['reference']>),
    units: [{ specimen: 'ALT-1', lot: 'other' }],
  };
  const lots = [lotOf('A', ['A-1', 'A-9']), lotOf('market', ['X1', 'SOMEBODY-ELSES']), lotOf('other', ['ALT-1'])];
  const made = caseOfLots({ ...document, alternative }, lots);
  expect(made.specimens.map(({ specimen }) => specimen)).toEqual(['A-1', 'X1', 'ALT-1']);
  expect(made.runs.map(({ run }) => run)).toEqual(['of-A-1', 'of-X1', 'of-ALT-1']);
});

it('is told to have changed an item by a run too, where nobody agreed before', () => {
  const inCourt = { ...given, comparison: { ...given.comparison, mayGoToCourt: true } };
  const [run] = inCourt.runs.filter(({ specimen }) => specimen === 'X1');
  const told = compareCase(inCourt).notes.filter((note) => note.startsWith('What is left may go to court'));
  expect(told).toEqual([
    `What is left may go to court, and item X1 was changed at ${run?.startedAt} (run ${run?.run}) without a consent or notice recorded before.`,
  ]);
  const consents = [
    {
      kind: 'consent' as const,
      party: 'Owner',
      about: 'May be broken',
      at: '2026-05-01T08:00:00Z',
      recordedBy: 'otto',
    },
  ];
  expect(compareCase({ ...inCourt, consents }).notes.join()).not.toContain('court');
});

import type { ComparisonCase, DeclaredCharacteristic } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { compareCase } from './compare-case.js';

const LOTS = ['L1', 'L2', 'L3', 'L4'];
const METHODS = ['DRAG', 'STRIKE'];
const AT = '2026-03-02T10:00:00Z';

const characteristic = (method: string): DeclaredCharacteristic => ({
  name: method.toLowerCase(),
  title: method === 'DRAG' ? 'Heat' : 'Blow',
  source: { from: 'runs', method, methodRevision: 1, characteristic: 'value' },
  unit: 'kN',
  tool: { kind: 'prediction', distribution: 'distribution-free', of: 'each', side: 'below', lots: 'alike' },
});

const run = (specimen: string, lot: string, method: string, value: number): ComparisonCase['runs'][number] => ({
  run: `${method}-${specimen}`,
  specimen,
  lot,
  method,
  methodRevision: 1,
  startedAt: AT,
  validity: 'valid',
  results: [
    { characteristic: 'value', title: 'Value', unit: 'kN', value: { kind: 'exact', value }, because: 'it broke' },
  ],
});

/** Two items beside four lots of which three units each took either test; which test each item took is said. */
function aCase(took: Record<string, string>): ComparisonCase {
  const known = LOTS.flatMap((lot, place) =>
    METHODS.flatMap((method, which) =>
      [0, 1, 2].map((nth) => ({
        specimen: `${lot}-${which}${nth}`,
        lot,
        method,
        value: 10 + ((place + nth) % 4) / 10,
      })),
    ),
  );
  const items = ['X1', 'X2'];
  return {
    comparison: {
      comparison: 'C1',
      revision: 1,
      title: 'Two items',
      product: 'rim',
      question: 'Do X1 and X2 agree with the rim?',
      compared: { what: 'items with a reference', reference: { reference: 'R', revision: 1 }, items },
      characteristics: METHODS.map(characteristic),
      features: [],
      confidence: 0.8,
      correction: 'Holm',
      power: 0.8,
      notExamined: ['age'],
      mayGoToCourt: false,
      seed: 1,
      declaredBy: 'one',
      declaredAt: '2026-03-01T10:00:00Z',
    },
    reference: {
      reference: 'R',
      revision: 1,
      title: 'Four lots',
      product: 'rim',
      madeFrom: '2026-01-01',
      madeTo: '2026-01-31',
      choice: 'all there were',
      units: known.map(({ specimen, lot }) => ({ specimen, lot })),
      chosenBy: 'one',
      frozenAt: '2026-02-01T10:00:00Z',
    },
    custody: [],
    observations: [],
    specimens: [
      ...known.map(({ specimen, lot }) => ({ specimen, lot, origin: 'drawn at random' as const })),
      ...items.map((specimen) => ({ specimen, lot: 'X', origin: 'suspect' as const })),
    ],
    runs: [
      ...known.map(({ specimen, lot, method, value }) => run(specimen, lot, method, value)),
      ...Object.entries(took).map(([specimen, method]) => run(specimen, 'X', method, 10.1)),
    ],
  };
}

// Common practice of examining items that a test ends, no source: one destructive test an item.
describe('an item that a test has ended', () => {
  it('is not examined in what another item answers for, and is not undecided for want of it', () => {
    const { characteristics, items } = compareCase(aCase({ X1: 'DRAG', X2: 'STRIKE' }));
    expect(characteristics.map(({ each }) => each.map(({ specimen }) => specimen))).toEqual([['X1'], ['X2']]);
    expect(items.map(({ level }) => level)).toEqual(['D', 'D']);
    expect(items[0]?.sentence).toContain('the 1 characteristic examined');
    expect(items[0]?.sentence).toContain('Blow was not examined on it: it took another test.');
  });

  it('leaves undecided what no item answers for, and what an item that took no test would have shown', () => {
    const none = compareCase(aCase({ X1: 'DRAG', X2: 'DRAG' }));
    expect(none.characteristics[1]).toMatchObject({ finding: 'C', each: [{ level: 'C' }, { level: 'C' }] });
    const untested = compareCase(aCase({ X1: 'DRAG' }));
    expect(untested.characteristics[0]?.each.map(({ level }) => level)).toEqual(['D', 'C']);
    expect(untested.items.map(({ level }) => level)).toEqual(['C', 'C']);
  });

  it('is told as set aside everywhere, where it is', () => {
    const setAside = [{ specimen: 'X2', because: 'found open', by: 'one', at: AT }];
    const { characteristics } = compareCase({ ...aCase({ X1: 'DRAG', X2: 'STRIKE' }), setAside });
    for (const { each } of characteristics)
      expect(each.find(({ specimen }) => specimen === 'X2')).toMatchObject({ level: 'E' });
  });
});

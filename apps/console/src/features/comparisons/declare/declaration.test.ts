import { Comparison } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { begunDeclaration, contentOf, declarationOf, FRESH_CHARACTERISTIC } from './declaration.js';

const RUNS = { from: 'runs', method: 'BURST', methodRevision: 3, characteristic: 'burstPressure' } as const;

/** Invented: every kind of tool, source and choice once. */
const DECLARED: Comparison = Comparison.parse({
  comparison: 'GRAYFORD',
  revision: 1,
  title: 'Two rims bought at the market of Grayford',
  product: 'dunlin-42',
  question: 'Do they agree with Dunlin 42 as made in June?',
  compared: {
    what: 'items with a reference',
    reference: { reference: 'D42-KNOWN', revision: 2 },
    items: ['MARKET-1', 'MARKET-2'],
  },
  characteristics: [
    {
      name: 'burst',
      title: 'Burst pressure',
      source: RUNS,
      unit: 'kPa',
      tool: { kind: 'prediction', distribution: 'weibull', of: 'mean', side: 'either', lots: 'alike' },
      differenceThatMatters: 150,
      betweenRigs: { u: 12.5, from: 'comparison of rigs in May' },
    },
    { name: 'modes', title: 'Failure modes', source: RUNS, tool: { kind: 'failure modes' } },
    {
      name: 'mass',
      title: 'Mass',
      source: { from: 'examination', feature: 'mass' },
      unit: 'g',
      tool: { kind: 'two groups', test: 'Mann-Whitney', side: 'above', unit: 'lot means' },
    },
    {
      name: 'width',
      title: 'Width',
      source: { from: 'examination', feature: 'mass' },
      unit: 'mm',
      tool: { kind: 'equivalence', margin: [-0.4, 0.5], unit: 'specimens' },
    },
    {
      name: 'heat',
      title: 'Heat',
      source: RUNS,
      unit: 'Cel',
      tool: { kind: 'non-inferiority', better: 'lower', margin: 8, unit: 'specimens' },
    },
  ],
  features: [{ feature: 'mass', title: 'Mass', kind: 'mass', howRead: 'Balance B2.', changesItem: false }],
  confidence: 0.995,
  correction: 'Bonferroni',
  power: 0.57,
  notExamined: ['resin family', 'fibre content'],
  blind: { blinded: ['b-ravenscroft'], listKeptBy: 'd-zunic' },
  mayGoToCourt: true,
  alternative: { statement: 'made in the mould of 2024', reference: { reference: 'D42-2024', revision: 1 } },
  seed: 7,
  declaredBy: 'i-sorbo',
  declaredAt: '2026-10-01T09:00:00Z',
});

describe('a declaration that is filled in', () => {
  it('is sent again as it was declared, digit by digit', () => {
    const { declaredBy: _, declaredAt: __, ...content } = DECLARED;
    expect(contentOf(declarationOf(DECLARED), 2)).toEqual({ ...content, revision: 2 });
  });

  it('keeps two groups with their lots', () => {
    const { characteristics } = DECLARED;
    const compared = {
      what: 'two groups',
      first: { title: 'before', lots: ['A'] },
      second: { title: 'after', lots: ['B', 'C'] },
    } as const;
    const groups = Comparison.parse({ ...DECLARED, compared, characteristics: characteristics.slice(1) });
    expect(contentOf(declarationOf(groups), 1).compared).toEqual(compared);
  });

  it('sends what is no number as it was written, for the service to say what it expected', () => {
    const begun = begunDeclaration({ product: 'dunlin-42', reference: '', seed: 1 });
    const filled = {
      ...begun,
      confidence: 'ninety',
      characteristics: [{ ...FRESH_CHARACTERISTIC, tool: 'non-inferiority' as const, margin: '5 %' }],
    };
    const { confidence, characteristics } = contentOf(filled, 1);
    expect(confidence).toBe('ninety');
    expect(characteristics[0]?.tool).toMatchObject({ margin: '5 %' });
  });
});

import { type Comparison, type ComparisonCase, type ComparisonResult, isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type InventedComparison, inventedComparison } from '../fixtures/invented-comparison.js';
import { compareCase } from './compare-case.js';
import { confidenceAt, levelInWords } from './words.js';
import { wordsNotToClaim } from './words-not-to-claim.js';

const THREE_LOTS = { A: [1500, 1540, 1475, 1520], B: [1550, 1570, 1530], C: [1490, 1510, 1465] };
const ALIKE = { A: [1500, 1540, 1475, 1520], B: [1510, 1530, 1490], C: [1495, 1510, 1465] };
const BELOW = { kind: 'prediction', distribution: 'normal', of: 'each', side: 'below', lots: 'vary' } as const;

const compared = (given: Partial<InventedComparison> = {}) =>
  compareCase(inventedComparison({ reference: THREE_LOTS, items: [1490], tool: BELOW, ...given }));
const burst = (result: ComparisonResult) => result.characteristics[0] as ComparisonResult['characteristics'][number];
const lowerOf = (result: ComparisonResult) => burst(result).bounds?.lower as number;

describe('an item against prediction bounds', () => {
  it('is not consistent below the bound, and the sentence holds the numbers', () => {
    const result = compared({ items: [940] });
    expect([result.level, burst(result).finding, result.items[0]?.level]).toEqual(['B', 'B', 'B']);
    expect(result.items[0]?.sentence).toMatch(
      /^Burst pressure of item X1, 940\.0 kPa, lies below the 95 % prediction bound 1\u202f\d{3} kPa of the reference \(n = 10, 3 lots\)\.$/,
    );
    expect(burst(result).p).toBeLessThan(0.05);
    expect(burst(result).pError).toBeGreaterThan(0);
  });

  it('is consistent within it, which is never said to show more', () => {
    const result = compared();
    expect(result.level).toBe('D');
    expect(result.items[0]?.sentence).toContain('No difference beyond the prediction bounds was found');
    expect(result.items[0]?.sentence).toContain('in the 1 characteristic examined. This does not show common origin.');
    expect(burst(result).sentence).toContain('would have been found with a chance of 90 % at the 5 % level');
    expect(result.notExamined).toEqual(['Fibre and resin']);
  });

  it.each(['normal', 'lognormal', 'weibull'] as const)(
    'is called out just where it passes the bound: %s',
    (distribution) => {
      const tool = { ...BELOW, distribution, side: 'either' } as const;
      const bound = lowerOf(compared({ tool }));
      const upper = burst(compared({ tool })).bounds?.upper as number;
      for (const [value, level] of [
        [bound - 0.01, 'B'],
        [bound + 0.01, 'D'],
        [upper - 0.01, 'D'],
        [upper + 0.01, 'B'],
      ] as const)
        expect([value, compared({ tool, items: [value] }).level]).toEqual([value, level]);
    },
  );

  it('says of several items where each of them was found, and of how many', () => {
    const either = { ...BELOW, side: 'either' } as const;
    const apart = burst(compared({ items: [900, 2400, 910], tool: either })).sentence;
    expect(apart).toMatch(
      /^Burst pressure of item X1, 900\.0 kPa, lies below [^.]*\. The same is found of 1 more of the 3 items\./,
    );
    expect(apart).toMatch(/ Burst pressure of item X2, 2\u202f400 kPa, lies above [^.]*\.$/);
    expect(burst(compared({ items: [1490, 1500] })).sentence).toMatch(
      /^Burst pressure: none of the 2 items measured lies below the 95 % prediction bound/,
    );
    expect(burst(compared({ items: [1490, 1500], tool: either })).sentence).toMatch(
      /^Burst pressure: all 2 items measured lie within the 95 % prediction bounds/,
    );
  });

  it('says of a mean that is bounded on neither side just that', () => {
    const items = [{ kind: 'atLeast', value: 900 } as const, { kind: 'atMost', value: 950 } as const];
    const result = compared({ items, tool: { ...BELOW, of: 'mean' } });
    expect(result.level).toBe('C');
    expect(burst(result).sentence).toContain('the mean of the 2 items, bounded on neither side, is inconclusive');
  });

  it('needs three lots, whatever the items show', () => {
    const result = compared({ reference: { A: [1500, 1510], B: [1490, 1520] }, items: [200] });
    expect(result.level).toBe('C');
    expect(burst(result).p).toMatchObject({ notEvaluated: { because: expect.stringContaining('2 lots') } });
    expect(burst(result).sentence).toContain('It could be decided if units of at least 3 lots are tested.');
  });

  it('has a bound farther out for several items, and where rigs differ', () => {
    const one = lowerOf(compared());
    expect(lowerOf(compared({ items: [1490, 1500, 1510] }))).toBeLessThan(one);
    const betweenRigs = { u: 60, from: 'a round robin' };
    expect(lowerOf(compared({ declared: { betweenRigs } }))).toBeLessThan(one);
  });

  it('is inconclusive where lots scatter so that no bound could be measured', () => {
    const reference = { A: [1, 1.01], B: [3000, 3010], C: [9e6, 9.1e6] };
    const result = compared({ reference, tool: { ...BELOW, distribution: 'lognormal', side: 'either' }, items: [5] });
    expect(result.level).toBe('C');
    expect(burst(result).sentence).toContain('beyond anything that could be measured');
  });

  it('takes units for one population only where lots are not told apart', () => {
    const alike = { ...BELOW, lots: 'alike' } as const;
    const result = compared({ reference: ALIKE, tool: alike });
    expect(lowerOf(result)).toBeGreaterThan(lowerOf(compared({ reference: ALIKE })));
    expect(burst(result).steps.map(({ question }) => question)).toContain(
      'May units of all lots be taken for one population?',
    );
    const apart = compared({
      reference: { A: [1500, 1510, 1505], B: [1600, 1610, 1605], C: [1400, 1410, 1405] },
      tool: alike,
    });
    expect(apart.level).toBe('C');
    expect(burst(apart).sentence).toContain('the test tells them apart');
  });

  it('is compared by the mean where that is declared', () => {
    const tool = { ...BELOW, of: 'mean' } as const;
    const result = compared({ items: [1000, 1010, 1020], tool });
    expect(result.items.map(({ level }) => level)).toEqual(['B', 'B', 'B']);
    expect(burst(result).sentence).toContain('the mean of the 3 items, 1\u202f010 kPa, lies below');
  });

  it('is inconclusive where a difference that matters could not have been shown', () => {
    const result = compared({ declared: { differenceThatMatters: 20 } });
    expect(result.level).toBe('C');
    expect(burst(result).sentence).toContain('is larger than the 20.00 kPa that would matter');
    expect(compared({ declared: { differenceThatMatters: 1000 } }).level).toBe('D');
    expect(compared({ items: [940], declared: { differenceThatMatters: 20 } }).level).toBe('B');
  });
});

describe('values known from one side', () => {
  const atLeast = (value: number) => ({ kind: 'atLeast' as const, value });

  it('of an item are never a difference by what they might be', () => {
    expect(compared({ items: [atLeast(1500)] }).level).toBe('D');
    const low = compared({ items: [atLeast(900)] });
    expect(low.level).toBe('C');
    expect(low.items[0]?.sentence).toContain(
      'at least 900.0 kPa, is inconclusive: what is known of it reaches to both sides',
    );
    expect(compared({ items: [{ kind: 'atMost', value: 900 }] }).level).toBe('B');
    expect(compared({ items: [{ kind: 'between', lower: 900, upper: 950 }] }).level).toBe('B');
    expect(compared({ items: [{ kind: 'between', lower: 900, upper: 1500 }] }).level).toBe('C');
  });

  it('of the reference are honoured where the rig ended every test at one load', () => {
    const reference = { A: [1500, atLeast(1540), 1475, 1520], B: [atLeast(1540), 1530, 1490], C: [1490, 1510, 1465] };
    const result = compared({ reference, items: [900, atLeast(1540)] });
    expect(result.items.map(({ level }) => level)).toEqual(['B', 'D']);
    expect(burst(result).steps.find(({ numbers }) => numbers['known as at least'] === 2)).toBeDefined();
  });

  it('of the reference at several loads are left to the tool that honours them', () => {
    const reference = { A: [1500, atLeast(1540), 1475], B: [atLeast(1510), 1530, 1490], C: [1490, 1510, 1465] };
    const result = compared({ reference });
    expect(burst(result).p).toMatchObject({
      notEvaluated: { possibleIf: expect.stringContaining('distribution-free') },
    });
  });
});

describe('an item against a reference without any distribution', () => {
  const free = { ...BELOW, distribution: 'distribution-free', lots: 'alike' } as const;
  // Values that no lot owns: spread evenly over three lots.
  const spread = (n: number) => {
    const reference: Record<string, number[]> = { A: [], B: [], C: [] };
    for (let unit = 0; unit < n; unit++) (reference['ABC'[unit % 3] as string] as number[]).push(1500 + 7 * unit);
    return reference;
  };

  it('is told apart from 19 units at 5 %, and from 18 not', () => {
    // Hahn and Meeker (1991), Statistical Intervals, section 5.4: 1 / (n + 1).
    const nineteen = compared({ reference: spread(19), items: [1400], tool: free });
    expect(burst(nineteen).p).toBeCloseTo(0.05, 12);
    expect(nineteen.level).toBe('B');
    expect(lowerOf(nineteen)).toBe(1500);
    const eighteen = compared({ reference: spread(18), items: [1400], tool: free });
    expect(burst(eighteen).p).toBeCloseTo(1 / 19, 12);
    expect(eighteen.level).toBe('C');
    expect(eighteen.items[0]?.sentence).toContain('a value beyond all 18 reference units has a chance of 0.053');
  });

  it('lets lots that vary speak with one unit each', () => {
    const result = compared({ reference: spread(30), items: [1400], tool: { ...free, lots: 'vary' } });
    expect(burst(result).p).toBeCloseTo(1 / 4, 12);
    expect(result.level).toBe('C');
  });

  it('counts an equal value as no difference', () => {
    expect(burst(compared({ reference: spread(19), items: [1500], tool: free })).p).toBeCloseTo(0.1, 12);
  });
});

describe('two groups', () => {
  const groups = { kind: 'two groups', side: 'either', unit: 'specimens' } as const;

  it('of three against three can come no lower than p = 0.10 by permutation', () => {
    // C(6, 3) = 20 arrangements, two of them as extreme: common practice to warn of it.
    const result = compared({
      reference: { A: [1500, 1510, 1520] },
      items: [900, 910, 905],
      tool: { ...groups, test: 'permutation' },
    });
    expect(burst(result).p).toBeCloseTo(0.1, 12);
    expect(burst(result).finding).toBe('C');
    expect(burst(result).sentence).toContain('even the most extreme order of so few values has a chance of 0.10');
  });

  it.each(['Welch', 'Mann-Whitney', 'permutation'] as const)(
    'are told with their difference and its limits: %s',
    (test) => {
      const { effect, finding, sentence } = burst(
        compared({ items: [1400, 1380, 1420, 1350], tool: { ...groups, test } }),
      );
      expect(finding).toBe('B');
      expect(effect?.difference).toBeCloseTo(-127.5, 9);
      const [low, high] = (effect as { limits: [number, number] }).limits;
      expect(low).toBeLessThan(-127.5);
      expect(high).toBeGreaterThan(-127.5);
      expect(high).toBeLessThan(0);
      expect(sentence).toContain('tend to lie lower');
    },
  );

  it('are compared by lot means where that is declared, with two lots on each side', () => {
    const tool = { ...groups, test: 'Welch', unit: 'lot means' } as const;
    const one = compared({ items: [1400, 1380], itemLots: ['b', 'b'], tool });
    expect(burst(one).p).toMatchObject({ notEvaluated: { because: expect.stringContaining('3 lots against 1') } });
    expect(typeof burst(compared({ items: [1400, 1380], tool })).p).toBe('number');
  });

  it('with values known from one side are ordered only where that is sure', () => {
    const items = [1400, 1380, 1420, { kind: 'atLeast', value: 1450 }] as const;
    const ranks = compared({ items, tool: { ...groups, test: 'Mann-Whitney', side: 'below' } });
    expect(burst(ranks).sentence).toContain("Gehan's scores");
    expect(burst(ranks).effect).toBeUndefined();
    expect(burst(compared({ items, tool: { ...groups, test: 'Welch' } })).p).toSatisfy(isNotEvaluated);
  });

  it('are not compared specimen by specimen where lots of one side are told apart', () => {
    const reference = { A: [1500, 1510, 1505, 1502], B: [1600, 1610, 1605, 1607], C: [1400, 1410, 1405, 1402] };
    const given = { reference, items: [1480, 1485], itemLots: ['b', 'b'] };
    for (const tool of [
      { ...groups, test: 'Welch' },
      { kind: 'equivalence', margin: [-60, 60], unit: 'specimens' },
    ] as const) {
      const result = burst(compared({ ...given, tool }));
      expect(result.p).toMatchObject({ notEvaluated: { possibleIf: expect.stringContaining('lot means') } });
      expect(result.finding).toBe('C');
    }
    const alike = burst(compared({ reference: ALIKE, items: [1480, 1485], tool: { ...groups, test: 'Welch' } }));
    expect(alike.steps.map(({ question }) => question)).toContain(
      'May specimens of the reference be compared one by one?',
    );
  });

  it('of lots need no reference, and their difference is of the second from the first', () => {
    const given = inventedComparison({
      reference: { A: [1500, 1510, 1490] },
      items: [1600, 1610, 1605],
      tool: { ...groups, test: 'Welch' },
      itemLots: ['B', 'B', 'B'],
    });
    const result = compareCase({
      ...given,
      reference: undefined as never,
      comparison: {
        ...given.comparison,
        compared: {
          what: 'two groups',
          first: { title: 'Before', lots: ['A'] },
          second: { title: 'After', lots: ['B'] },
        },
      },
    });
    expect(burst(result).effect?.difference).toBeCloseTo(105, 9);
    expect(burst(result).sentence).toContain(
      'values of After (n = 3, 1 lot) tend to lie higher than those of Before (n = 3, 1 lot)',
    );
    expect([result.level, result.items]).toEqual(['B', []]);
  });
});

describe('a declared margin', () => {
  it.each([
    [[1500, 1520, 1530, 1490], 'D', 'are shown to differ by less than the margin'],
    [[1500, 1600, 1400, 1520], 'C', 'are not shown to differ by less'],
    [[1300, 1310, 1305, 1295], 'B', 'differ by more than the margin'],
  ] as const)('makes %j %s', (items, level, said) => {
    const result = compared({ items, tool: { kind: 'equivalence', margin: [-60, 60], unit: 'specimens' } });
    expect(result.level).toBe(level);
    expect(burst(result).sentence).toContain(said);
  });

  it('that was kept is no finding of no difference', () => {
    // By 15 kPa they do differ, which is less than the margin.
    const reference = { A: [1500, 1501, 1499, 1500], B: [1500, 1501, 1499], C: [1500, 1501, 1499] };
    const items = [1515, 1516, 1514, 1515];
    const tool = { kind: 'equivalence', margin: [-60, 60], unit: 'specimens' } as const;
    const result = compared({ reference, items, tool });
    expect(result.level).toBe('D');
    for (const said of [result.sentences[0], result.items[0]?.sentence])
      expect(said).toMatch(/No difference beyond the margins declared was found/);
  });

  it('on one side only lets better items be better', () => {
    const tool = { kind: 'non-inferiority', better: 'higher', margin: 30, unit: 'specimens' } as const;
    expect(compared({ items: [1700, 1720, 1730], tool }).level).toBe('D');
    expect(compared({ items: [1300, 1320, 1330], tool }).level).toBe('B');
    expect(compared({ items: [1500, 1480, 1490], tool }).level).toBe('C');
  });
});

describe('failure modes', () => {
  it('are compared by the exact test of their mix', () => {
    const result = compared({
      items: [1500, 1500, 1500, 1500],
      tool: { kind: 'failure modes' },
      modes: { reference: Array(10).fill('bead'), items: ['track', 'track', 'track', 'bead'] },
    });
    // Of 14 units 3 are "track", all among 4 items: C(11, 1) / C(14, 4) = 11 / 1001.
    expect(burst(result).p).toBeCloseTo(11 / 1001, 12);
    expect(burst(result).modes).toEqual([
      { mode: 'bead', reference: 10, items: 1 },
      { mode: 'track', reference: 0, items: 3 },
    ]);
    expect(result.level).toBe('B');
  });
});

describe('several characteristics', () => {
  const several = (items: number[], correction: Comparison['correction'], missing = false) => {
    const given = inventedComparison({ reference: THREE_LOTS, items, tool: BELOW });
    const [one] = given.comparison.characteristics as [Comparison['characteristics'][number]];
    const another = (name: string, method: string) => ({
      ...one,
      name,
      title: name,
      source: { ...one.source, method } as typeof one.source,
    });
    return compareCase({
      ...given,
      comparison: {
        ...given.comparison,
        correction,
        characteristics: [one, another('again', 'burst'), another('third', missing ? 'never-made' : 'burst')],
      },
    });
  };

  it('share the level by Holm, a missing one counted with the others', () => {
    const levels = several([1490], 'Holm', true).characteristics.map(({ level }) => level);
    // None is called, so all keep the level at which it stopped.
    for (const level of levels) expect(level).toBeCloseTo(0.05 / 3, 12);
    const called = several([700], 'Holm', true).characteristics;
    expect(called.map(({ level }) => level)).toEqual([0.05 / 3, 0.025, 0.05].map((level) => expect.closeTo(level, 12)));
    expect(called.map(({ finding }) => finding)).toEqual(['B', 'B', 'C']);
    expect(called[0]?.sentence).toContain('98.33 % prediction bound');
    for (const { level } of several([1490], 'Bonferroni').characteristics) expect(level).toBeCloseTo(0.05 / 3, 12);
  });

  it.each([
    [0.0125, '98.75 %', '1.25 %'],
    [0.05 / 3, '98.33 %', '1.67 %'],
    [0.05 / 7, '99.286 %', '0.714 %'],
    [0.003125, '99.6875 %', '0.3125 %'],
    [0.05, '95 %', '5 %'],
  ])('tell the level %d so that it is not taken for another', (level, confidence, told) => {
    expect([confidenceAt(level), levelInWords(level)]).toEqual([confidence, told]);
  });

  it('make an item inconclusive where one gave no value', () => {
    const result = several([1490], 'Holm', true);
    expect(result.level).toBe('C');
    expect(result.characteristics).toHaveLength(3);
  });
});

describe('which values count', () => {
  const changed = (change: (given: ComparisonCase) => void) => {
    const given = inventedComparison({ reference: THREE_LOTS, items: [1490], tool: BELOW });
    change(given);
    return compareCase(given);
  };
  const item = (given: ComparisonCase) =>
    given.runs.find(({ specimen }) => specimen === 'X1') as ComparisonCase['runs'][number];

  it('is the first valid run in time, and the others stand with the reason', () => {
    const result = changed((given) => {
      const run = item(given);
      given.runs.push(
        {
          ...run,
          run: 'R-late',
          startedAt: '2026-05-06T08:00:00Z',
          results: [{ ...run.results[0], value: { kind: 'exact', value: 900 } } as never],
        },
        { ...run, run: 'R-bad', startedAt: '2026-05-04T08:00:00Z', validity: 'invalid' },
        { ...run, run: 'R-old', startedAt: '2026-05-04T09:00:00Z', methodRevision: 2 },
      );
    });
    expect(burst(result).items.map(({ run }) => run)).toEqual(['R-X1']);
    expect(burst(result).leftOut).toEqual([
      { specimen: 'X1', run: 'R-bad', because: 'the run is invalid' },
      { specimen: 'X1', run: 'R-old', because: 'made under revision 2 of burst; revision 1 is declared' },
      { specimen: 'X1', run: 'R-late', because: expect.stringContaining('the first in time counts') },
    ]);
  });

  it('is told in the unit declared', () => {
    const result = changed((given) => {
      const run = item(given);
      run.results = run.results.map((one) => ({ ...one, unit: 'bar', value: { kind: 'exact', value: 14.9 } }));
    });
    expect(burst(result).items[0]?.value).toEqual({ kind: 'exact', value: expect.closeTo(1490, 9) });
    expect(result.level).toBe('D');
  });

  it('is none of an item set aside', () => {
    const result = changed((given) => {
      given.setAside = [
        { specimen: 'X1', because: 'It was crushed in the post.', by: 'ines', at: '2026-05-04T08:00:00Z' },
      ];
    });
    expect([result.level, burst(result).finding, result.items[0]?.level]).toEqual(['E', 'E', 'E']);
    expect(result.items[0]?.sentence).toContain('crushed in the post');
  });

  it('leaves an item that is set aside out of what is said of the others', () => {
    const given = inventedComparison({ reference: THREE_LOTS, items: [1490, 1500], tool: BELOW });
    given.setAside = [
      { specimen: 'X1', because: 'It was crushed in the post.', by: 'ines', at: '2026-05-04T08:00:00Z' },
    ];
    const result = compareCase(given);
    expect(result.level).toBe('D');
    expect(result.sentences[0]).toContain('was found between 1 of 2 items (X2) and the reference');
  });

  it('counts a unit of the reference to the lot under which it was frozen, whatever its records say now', () => {
    const [frozen, moved] = [{}, { lot: 'moved' }].map((now) => {
      const given = inventedComparison({ reference: THREE_LOTS, items: [1490], tool: BELOW });
      const units = new Set(given.reference?.units.map(({ specimen }) => specimen));
      given.specimens = given.specimens.map((one) => (units.has(one.specimen) ? { ...one, ...now } : one));
      return burst(compareCase(given));
    });
    expect(moved?.lots).toBe(3);
    expect(moved?.bounds).toEqual(frozen?.bounds);
  });

  it('never includes units beside the frozen reference', () => {
    const result = changed((given) => {
      if (given.reference) given.reference.units = given.reference.units.filter(({ specimen }) => specimen !== 'A-1');
    });
    expect(burst(result).reference).toHaveLength(9);
  });
});

describe('features', () => {
  const seen = (
    observed: Record<string, string>,
    variants?: NonNullable<ComparisonCase['reference']>['variants'],
  ): ComparisonResult => {
    const given = inventedComparison({ reference: THREE_LOTS, items: [1490], tool: BELOW });
    given.comparison.features = [
      { feature: 'label', title: 'Label', kind: 'label text', howRead: 'Letter by letter', changesItem: false },
    ];
    given.observations = Object.entries(observed).map(([specimen, text]) => ({
      specimen,
      feature: 'label',
      seen: text,
      by: 'otto',
      at: '2026-05-04T08:00:00Z',
    }));
    if (given.reference && variants) given.reference.variants = variants;
    return compareCase(given);
  };
  const checked = (label: string[] = []) => ({
    list: 'change notes, March to June',
    checkedBy: 'ines',
    features: { label },
  });
  const reference = { 'A-1': 'DUNLIN 42', 'B-1': 'DUNLIN 42' };

  it.each([
    ['misspelt, variants looked through', { ...reference, X1: 'DUNLIM 42' }, checked(), 'A'],
    ['misspelt, nobody looked', { ...reference, X1: 'DUNLIM 42' }, undefined, 'C'],
    ['alike', { ...reference, X1: 'DUNLIN 42' }, undefined, 'D'],
    ['a recorded variant', { ...reference, X1: 'Dunlin 42' }, checked(['Dunlin 42']), 'D'],
    ['no reference unit looked at', { X1: 'DUNLIN 42' }, checked(), 'C'],
    ['the item not looked at', reference, checked(), 'C'],
  ] as const)('%s', (_, observed, variants, level) => {
    const result = seen(observed, variants);
    expect(result.features[0]?.finding).toBe(level);
    expect(result.level).toBe(level);
  });

  it('name what differs and the list looked through', () => {
    const [feature] = seen({ ...reference, X1: 'DUNLIM 42' }, checked()).features;
    expect(feature?.sentence).toBe(
      'Label of item X1, "DUNLIM 42", differs from all 2 reference units looked at ("DUNLIN 42"); no build variant recorded for the period has this (change notes, March to June).',
    );
  });
});

describe('what stands beside', () => {
  const withAlternative = (tool: InventedComparison['tool'], items: readonly number[]) => {
    const given = inventedComparison({ reference: ALIKE, items, tool });
    const other = inventedComparison({
      reference: { P: [1200, 1240, 1190], Q: [1210, 1230, 1180], R: [1195, 1225, 1215] },
      items: [1],
      tool,
    });
    return compareCase({
      ...given,
      comparison: {
        ...given.comparison,
        alternative: { statement: 'made in the mould of 2024', reference: { reference: 'ALT', revision: 1 } },
      },
      alternative: { ...(other.reference as NonNullable<typeof other.reference>), reference: 'ALT' },
      runs: [...given.runs, ...other.runs.filter(({ specimen }) => specimen !== 'X1')],
    });
  };

  it('is a likelihood ratio only with data for both sides', () => {
    const low = burst(withAlternative(BELOW, [1210])).likelihoodRatio as {
      ratio: number;
      words: string;
      sentence: string;
    };
    expect(low.ratio).toBeLessThan(0.1);
    expect(low.sentence).toContain('made in the mould of 2024');
    expect(low.sentence).toContain('This is no probability of either.');
    const high = burst(withAlternative(BELOW, [1505])).likelihoodRatio as { ratio: number };
    expect(high.ratio).toBeGreaterThan(10);
    expect(burst(compared()).likelihoodRatio).toBeUndefined();
    expect(burst(withAlternative({ ...BELOW, distribution: 'weibull' }, [1210])).likelihoodRatio).toSatisfy(
      isNotEvaluated,
    );
    expect(burst(withAlternative(BELOW, [1210, 1220])).likelihoodRatio).toSatisfy(isNotEvaluated);
  });

  it('are earlier revisions with the reason for which each was left', () => {
    const given = inventedComparison({ reference: THREE_LOTS, items: [1490], tool: BELOW });
    const result = compareCase({
      ...given,
      earlier: [given.comparison],
      comparison: {
        ...given.comparison,
        revision: 2,
        reason: 'The mass was forgotten.',
        declaredAt: '2026-05-09T08:00:00Z',
      },
    });
    expect(result.earlierRevisions).toEqual([
      { revision: 1, declaredAt: '2026-05-04T08:00:00Z', reason: 'The mass was forgotten.' },
    ]);
    expect(result.notes[0]).toContain('was declared at 2026-05-09T08:00:00Z, after the first run of an item');
  });

  it('are items without custody, and rigs that differ', () => {
    const given = inventedComparison({ reference: THREE_LOTS, items: [1490], tool: BELOW });
    const result = compareCase({
      ...given,
      custody: [],
      runs: given.runs.map((run) => ({ ...run, rig: run.specimen === 'X1' ? 'rig-2' : 'rig-1' })),
    });
    expect(result.gaps.map(({ sentence }) => sentence)).toEqual(['Item X1: no custody is recorded.']);
    expect(result.notes.join(' ')).toContain('rig-2');
  });

  it('is nothing that a lab must not claim, in any sentence', () => {
    const tools: InventedComparison['tool'][] = [
      BELOW,
      { ...BELOW, distribution: 'distribution-free', lots: 'alike' },
      { kind: 'two groups', test: 'Welch', side: 'either', unit: 'specimens' },
      { kind: 'equivalence', margin: [-60, 60], unit: 'specimens' },
    ];
    for (const tool of tools)
      for (const items of [
        [900, 910],
        [1500, 1510],
      ]) {
        const { sentences, items: each, notes, characteristics } = compared({ items, tool });
        const all = [
          ...sentences,
          ...each.map(({ sentence }) => sentence),
          ...notes,
          ...characteristics.flatMap(({ steps }) => steps.map(({ answer }) => answer)),
        ];
        // "This does not show common origin" is the one place where the word is meant to stand.
        expect(wordsNotToClaim(all.join(' ').replaceAll('This does not show common origin.', ''))).toEqual([]);
      }
  });
});

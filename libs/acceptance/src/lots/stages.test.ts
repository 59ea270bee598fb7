import type { Criterion } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { bound, complete, every, judged, ref, type Tested } from '../fixtures/judged-lot.js';

const low = (...values: number[]): Tested[] => values.map((value) => ({ value }));
const staged = (tested: Tested[], criteria: Criterion[], stages = [5, 5]) =>
  judged(tested, { criteria, specimens: stages.reduce((sum, one) => sum + one, 0), line: { stages } });

describe('a line with stages', () => {
  it('ends at the first look at which it is met, and leaves later runs out', () => {
    const { lines, outcome } = staged([...complete, { value: 1850 }], [bound('normal', 0.5, 0.9)]);
    expect(outcome).toBe('meets the plan');
    expect(lines[0]?.stages).toHaveLength(1);
    expect(lines[0]?.entries.at(-1)).toMatchObject({ inClaim: false, because: expect.stringContaining('beyond') });
  });

  it('takes each look at more than the confidence of the whole, so that the schedule keeps it', () => {
    const [first] = staged(complete, [bound('normal', 0.99, 0.95)]).lines[0]?.stages ?? [];
    const look = first?.criteria[0];
    expect(look?.perStageConfidence).toBeGreaterThan(0.95);
    // By itself it would take k = 5.7411 (n = 5, 99 % with 95 %; ISO 16269-6:2014), so that this look's bound lies lower.
    expect(look?.bound).toBeLessThan(1800 - 5.7411 * Math.sqrt(6250));
  });

  it('goes on where a look settles nothing, and then says how many more', () => {
    const { lines, outcome } = staged(complete, [bound('normal', 0.99, 0.95)]);
    expect(outcome).toBe('undecided');
    expect(lines[0]?.criteria[0]).toMatchObject({
      outcome: 'not yet decidable',
      because: expect.stringContaining('5 of 10 planned'),
      possibleIf: expect.stringContaining('5 more valid runs'),
    });
    expect(lines[0]?.stages).toMatchObject([
      { stage: 1, complete: true },
      { stage: 2, complete: false, planned: 10 },
    ]);
    expect(lines[0]?.forecast).toMatchObject({ remaining: 5 });
  });

  it('is not met when the last look is complete', () => {
    const { lines, outcome } = staged([...complete, ...complete], [bound('normal', 0.99, 0.95)]);
    expect(outcome).toBe('does not meet the plan');
    expect(lines[0]?.criteria[0]).toMatchObject({ outcome: 'not met' });
  });

  it('ends at once where a specimen fails what every specimen must hold', () => {
    expect(staged(low(1400, 1800), [every, bound('normal', 0.5, 0.9)]).outcome).toBe('does not meet the plan');
  });

  const three: Criterion = {
    kind: 'failures at most',
    criterion: 'count',
    limit: ref,
    allowed: 1,
    looks: [
      { accept: 0, reject: 2 },
      { accept: 1, reject: 2 },
    ],
  };
  // None of 3; one of 3, then six clean (double sampling, Dodge and Romig 1929).
  it.each<[string, Tested[], string, number]>([
    ['none of 3', low(1600, 1600, 1600), 'meets the plan', 1],
    ['one of 3', low(1400, 1600, 1600), 'undecided', 2],
    ['one of 3, then 6 clean', low(1400, ...Array(8).fill(1600)), 'meets the plan', 2],
    ['one of 3, then one more', low(1400, 1600, 1600, 1600, 1400), 'does not meet the plan', 2],
    ['two of 3', low(1400, 1400), 'does not meet the plan', 1],
  ])('counts: %s', (_, tested, outcome, stages) => {
    const result = staged(tested, [three], [3, 6]);
    expect(result.outcome).toBe(outcome);
    expect(result.lines[0]?.stages).toHaveLength(stages);
  });
});

describe('earlier lots', () => {
  const pooling = {
    rule: 'earlier lots',
    lots: 2,
    test: 'k-sample Anderson-Darling',
    level: 0.05,
    shiftThatMatters: 0.1,
  } as const;
  const earlier = (lot: string, madeTo: string, values: number[]) => ({
    lot,
    madeTo,
    line: 'burst',
    method: 'BURST',
    methodRevision: 3,
    characteristic: 'burstPressure',
    unit: 'kPa',
    sample: { exact: values },
  });
  const alike = [
    earlier('L-0029', '2030-12-01', [1710, 1760, 1790, 1845, 1890]),
    earlier('L-0030', '2030-12-20', [1705, 1755, 1805, 1840, 1895]),
  ];

  it('enter the bound where the declared test does not tell them apart', () => {
    const [criterion] =
      judged(complete, { criteria: [bound('normal')], pooling, earlier: alike }).lines[0]?.criteria ?? [];
    const [alone] = judged(complete, { criteria: [bound('normal')] }).lines[0]?.criteria ?? [];
    expect(criterion).toMatchObject({
      pooled: { used: true, n: 15, lots: [{ lot: 'L-0030' }, { lot: 'L-0029' }], power: { shift: 0.1 } },
    });
    expect(criterion?.bound?.value).toBeGreaterThan(alone?.bound?.value as number);
  });

  it('stay out where it does, with what it would have seen', () => {
    const weak = [earlier('L-0030', '2030-12-20', [1305, 1355, 1405, 1440, 1495])];
    const [criterion] =
      judged(complete, { criteria: [bound('normal')], pooling, earlier: weak }).lines[0]?.criteria ?? [];
    const [alone] = judged(complete, { criteria: [bound('normal')] }).lines[0]?.criteria ?? [];
    expect(criterion).toMatchObject({ pooled: { used: false, test: { same: false } } });
    expect(criterion?.bound?.value).toBe(alone?.bound?.value);
  });

  it('later ones, and ones by another method revision, never enter', () => {
    const others = [
      earlier('L-0040', '2031-05-01', [1700, 1800]),
      { ...alike[0], methodRevision: 2 } as (typeof alike)[number],
    ];
    const [criterion] =
      judged(complete, { criteria: [bound('normal')], pooling, earlier: others }).lines[0]?.criteria ?? [];
    expect(criterion).toMatchObject({ pooled: { used: false, lots: [] } });
  });

  it('enter what a forecast draws, by the same test', () => {
    const three = complete.slice(0, 3);
    const forecastOf = (given: Parameters<typeof judged>[1]) => {
      const [line] = judged(three, { criteria: [bound('normal', 0.9, 0.95)], ...given }).lines;
      const forecast = line?.forecast as { probability: number };
      return forecast.probability;
    };
    // Alone 5 specimens of mean 1750 and scatter 50 seldom clear 1500; with ten like them before they often do.
    expect(forecastOf({ pooling, earlier: alike })).toBeGreaterThan(forecastOf({}) + 0.05);
  });
});

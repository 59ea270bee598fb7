import type { Sample } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LowerToleranceBound, type LowerToleranceRequest, lowerToleranceBound } from './lower-tolerance-bound.js';

const B = { coverage: 0.9, confidence: 0.95 } as const;
const five: Sample = { exact: [41.2, 44.8, 46.1, 47.9, 50.3] };

function bounded(request: LowerToleranceRequest): LowerToleranceBound {
  const bound = lowerToleranceBound(request);
  if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
  return bound;
}

describe('lowerToleranceBound', () => {
  it('takes the technique recommended for the declared distribution', () => {
    expect(bounded({ ...B, sample: five, distribution: 'normal' }).technique).toBe('noncentral-t');
    expect(bounded({ ...B, sample: five, distribution: 'weibull' }).technique).toBe('conditional');
    const many = { exact: Array.from({ length: 30 }, (_, index) => 100 + index) };
    expect(bounded({ ...B, sample: many, distribution: 'distribution-free' })).toMatchObject({
      technique: 'order-statistic',
      rank: 1,
      bound: 100,
      achievedConfidence: expect.closeTo(1 - 0.9 ** 30, 12),
    });
  });

  it('marks the likelihood-ratio bound as no basis for acceptance, and it lies higher', () => {
    const bold = bounded({ ...B, sample: five, distribution: 'weibull', technique: 'likelihood-ratio' });
    const exact = bounded({ ...B, sample: five, distribution: 'weibull' });
    expect(bold).toMatchObject({ forAcceptance: false, achievedConfidence: { notEvaluated: {} } });
    expect(exact).toMatchObject({ forAcceptance: true, achievedConfidence: 0.95 });
    expect(bold.bound).toBeGreaterThan(exact.bound);
  });

  it.each([
    { why: 'fewer than two strengths', sample: { exact: [40], atLeast: [41, 42] }, distribution: 'normal' },
    { why: 'strictly below the largest', sample: { exact: [40], atLeast: [40, 40] }, distribution: 'weibull' },
    { why: 'no specimen broke', sample: { atLeast: [40, 41] }, distribution: 'weibull' },
    { why: 'all strengths are the same', sample: { exact: [40, 40, 40] }, distribution: 'normal' },
    { why: 'one strength says', sample: { exact: [40] }, distribution: 'normal' },
    { why: 'not even the weakest', sample: five, distribution: 'distribution-free' },
    { why: 'the sample is empty', sample: {}, distribution: 'distribution-free' },
  ] as { why: string; sample: Sample; distribution: LowerToleranceRequest['distribution'] }[])(
    'gives no $distribution bound, and says why: $why',
    ({ why, sample, distribution }) => {
      const answer = lowerToleranceBound({ ...B, sample, distribution });
      expect(answer).toMatchObject({ notEvaluated: { possibleIf: expect.any(String) } });
      expect((answer as { notEvaluated: { because: string } }).notEvaluated.because).toMatch(new RegExp(why));
    },
  );

  it.each([
    {
      technique: 'noncentral-t',
      why: 'complete samples only',
      sample: { ...five, atLeast: [52] },
      distribution: 'normal',
    },
    {
      technique: 'noncentral-t',
      why: 'complete samples only',
      sample: { ...five, atMost: [52] },
      distribution: 'lognormal',
    },
    {
      technique: 'conditional',
      why: 'other than the last break',
      sample: { ...five, atLeast: [52] },
      distribution: 'weibull',
    },
    {
      technique: 'conditional',
      why: 'other than the last break',
      sample: { ...five, atLeast: [50.3, 45] },
      distribution: 'normal',
    },
    {
      technique: 'conditional',
      why: 'at most or between',
      sample: { ...five, between: [[40, 45]] },
      distribution: 'weibull',
    },
    {
      technique: 'hanson-koopmans',
      why: 'could raise this bound',
      sample: { ...five, atLeast: [52] },
      distribution: 'distribution-free',
    },
    {
      technique: 'hanson-koopmans',
      why: 'every strength is above 0',
      sample: { exact: [-1, 2] },
      distribution: 'distribution-free',
    },
    { technique: 'noncentral-t', why: 'does not serve a weibull bound', sample: five, distribution: 'weibull' },
    {
      technique: 'calibrated',
      why: 'does not serve a distribution-free',
      sample: five,
      distribution: 'distribution-free',
    },
  ] as (LowerToleranceRequest & { why: string })[])(
    'does not lend $technique to a $distribution sample it does not serve, and says why: $why',
    ({ why, sample, distribution, technique }) => {
      const { notEvaluated } = lowerToleranceBound({ ...B, sample, distribution, technique }) as {
        notEvaluated: { because: string; possibleIf: string };
      };
      expect(`${notEvaluated.because}; ${notEvaluated.possibleIf}`).toContain(why);
    },
  );

  it('serves a sample too small for any rank by Hanson-Koopmans, if asked', () => {
    const found = bounded({ ...B, sample: five, distribution: 'distribution-free', technique: 'hanson-koopmans' });
    // Rank 4 and k = 4.101 of five: MIL-HDBK-17-1F, volume 1, chapter 8, from memory.
    expect(found.rank).toBe(4);
    expect(found.bound).toBeCloseTo(47.9 * (41.2 / 47.9) ** 4.100731, 4);
  });

  it('serves a test that ended at its last break', () => {
    const ended = { exact: [38, 41, 44], atLeast: [44, 44] };
    expect(bounded({ ...B, sample: ended, distribution: 'weibull' })).toMatchObject({ n: 5, failures: 3 });
  });

  it('says when the size of the lot does not enter', () => {
    const answer = bounded({ ...B, sample: five, distribution: 'normal', lotSize: 40 });
    expect(answer.population).toBe('process');
    expect(answer.assumptions.join()).toContain('the size of the lot (40) does not enter');
  });
});

describe('the distribution-free bound', () => {
  it('counts a survivor at what it held, and never lies higher for it', () => {
    const strengths = Array.from({ length: 46 }, (_, index) => 100 + index);
    const complete = bounded({ ...B, sample: { exact: strengths }, distribution: 'distribution-free' });
    const early = { exact: strengths.slice(0, 40), atLeast: Array(6).fill(100.5) };
    const withSurvivors = bounded({ ...B, sample: early, distribution: 'distribution-free' });
    expect(complete).toMatchObject({ rank: 2, bound: 101 });
    expect(withSurvivors).toMatchObject({ rank: 2, bound: 100.5, n: 46, failures: 40 });
  });

  it('has no bound where the strength needed is known only as at most some value', () => {
    const sample = { exact: Array.from({ length: 29 }, (_, index) => 100 + index), atMost: [120] };
    expect(lowerToleranceBound({ ...B, sample, distribution: 'distribution-free' })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('at most') },
    });
  });

  // Every sample that could be drawn from a small lot, counted.
  it.each([
    { lotSize: 9, n: 6, coverage: 0.6, confidence: 0.7 },
    { lotSize: 10, n: 7, coverage: 0.7, confidence: 0.9 },
    { lotSize: 12, n: 9, coverage: 0.75, confidence: 0.95 },
  ])('keeps its confidence over all samples of $n from a lot of $lotSize', ({ lotSize, n, coverage, confidence }) => {
    let [held, all] = [0, 0];
    let achieved = 0;
    for (const sample of subsets(lotSize, n)) {
      const bound = bounded({
        sample: { exact: sample },
        coverage,
        confidence,
        distribution: 'distribution-free',
        lotSize,
      });
      achieved = bound.achievedConfidence as number;
      // The lot is 1, 2, ... lotSize, so lotSize + 1 - bound of its units are at or above the bound.
      if (lotSize + 1 - bound.bound >= coverage * lotSize - 1e-9) held++;
      all++;
    }
    expect(held / all).toBeCloseTo(achieved, 12);
    expect(achieved).toBeGreaterThanOrEqual(confidence);
  });
});

describe('any lower tolerance bound', () => {
  const samples = fc
    .array(fc.integer({ min: 300, max: 2000 }), { minLength: 3, maxLength: 14 })
    .filter((values) => new Set(values).size > 2);
  const parametric = fc.constantFrom('normal' as const, 'lognormal' as const, 'weibull' as const);

  it('moves with the unit and not with the order', () => {
    fc.assert(
      fc.property(samples, parametric, fc.constantFrom(0.145, 6.894757, 1e5), (exact, distribution, unit) => {
        const here = bounded({ ...B, sample: { exact }, distribution });
        const turned = exact.toReversed().map((x) => x * unit);
        const there = bounded({ ...B, sample: { exact: turned }, distribution });
        expect(Math.abs(there.bound / unit - here.bound)).toBeLessThan(1e-8 * Math.abs(here.bound) + 1e-9);
      }),
      { numRuns: 30 },
    );
  });

  it('says so where no number could hold the bound', () => {
    const sample: Sample = { exact: [1e-90], between: [[40, 40.00000004]] };
    const request = { sample, coverage: 0.001, confidence: 1e-12, distribution: 'lognormal' } as const;
    expect(lowerToleranceBound({ ...request, technique: 'bootstrap', replicates: 500 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('beyond every number') },
    });
  });

  it('falls as coverage or confidence rises, and lies below the estimate', () => {
    fc.assert(
      fc.property(samples, parametric, (exact, distribution) => {
        const sample = { exact };
        const here = bounded({ ...B, sample, distribution });
        const surer = bounded({ ...B, confidence: 0.99, sample, distribution });
        const more = bounded({ ...B, coverage: 0.99, sample, distribution });
        expect(surer.bound).toBeLessThan(here.bound);
        expect(more.bound).toBeLessThan(here.bound);
        expect(here.bound).toBeLessThan(here.estimate);
      }),
      { numRuns: 30 },
    );
  });
});

/** Every choice of n of the numbers 1 to size, in order. */
function* subsets(size: number, n: number, from = 1): Generator<number[]> {
  if (n === 0) {
    yield [];
    return;
  }
  for (let first = from; first <= size - n + 1; first++)
    for (const rest of subsets(size, n - 1, first + 1)) yield [first, ...rest];
}

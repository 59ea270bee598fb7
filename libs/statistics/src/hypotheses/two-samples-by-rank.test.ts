import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holm } from './holm.js';
import { mannWhitney } from './mann-whitney.js';
import { permutationTest } from './permutation-test.js';
import { sumDistribution } from './rank-sum-distribution.js';

const answered = <T extends object>(answer: T): Exclude<T, { notEvaluated: unknown }> => {
  if ('notEvaluated' in answer) throw new Error(JSON.stringify(answer));
  return answer as Exclude<T, { notEvaluated: unknown }>;
};

describe('mannWhitney', () => {
  it('is the permutation test of rank sums where no values are equal', () => {
    const both = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { minLength: 2, maxLength: 14 });
    fc.assert(
      fc.property(both, fc.nat(), (values, at) => {
        const cut = 1 + (at % (values.length - 1));
        const [a, b] = [values.slice(0, cut), values.slice(cut)];
        const exact = answered(mannWhitney(a, b, 0.8));
        const permuted = answered(permutationTest(a, b, { statistic: 'rank-sum' }));
        expect(exact.exact).toBe(true);
        expect(exact.pLess).toBeCloseTo(permuted.pLess, 12);
        expect(exact.pGreater).toBeCloseTo(permuted.pGreater, 12);
        expect(exact.pTwoSided).toBeCloseTo(permuted.pTwoSided, 12);
      }),
      { numRuns: 80 },
    );
  });

  it('moves its shift with the values', () => {
    const a = [3, 7, 8, 12, 13];
    const b = [2, 4, 5, 6, 9];
    const found = answered(mannWhitney(a, b, 0.9)).shift;
    const moved = answered(
      mannWhitney(
        a.map((value) => value + 100),
        b,
        0.9,
      ),
    ).shift;
    expect(moved.estimate).toBe(found.estimate + 100);
    expect(moved.limits).toEqual((found.limits as [number, number]).map((limit) => limit + 100));
    expect(found.achievedConfidence).toBeGreaterThanOrEqual(0.9);
  });

  it('approximates very large groups closely', () => {
    const a = Array.from({ length: 400 }, (_, index) => 2 * index + 14.5);
    const b = Array.from({ length: 400 }, (_, index) => 2 * index);
    const found = answered(mannWhitney(a, b, 0.95));
    expect(found.exact).toBe(false);
    const [low, high] = found.shift.limits as [number, number];
    expect(low < 14.5 && high > 14.5).toBe(true);
    expect(found.shift.achievedConfidence).toBeGreaterThanOrEqual(0.95);
  });

  it('says why two values each give no limits at 95 %', () => {
    const found = answered(mannWhitney([1, 2], [3, 4], 0.95));
    expect(found.shift).toMatchObject({
      estimate: -2,
      limits: { notEvaluated: { because: expect.stringContaining('4 differences') } },
      achievedConfidence: { notEvaluated: {} },
    });
  });

  it.each([
    [[], [1]],
    [[4, 4], [4]],
  ])('says why %j and %j cannot be compared', (a, b) => {
    expect(mannWhitney(a, b, 0.95)).toMatchObject({ notEvaluated: {} });
  });
});

describe('permutationTest', () => {
  it('can never be surer than the number of arrangements allows', () => {
    expect(permutationTest([10, 11, 12], [1, 2, 3])).toMatchObject({
      pTwoSided: 2 / 20,
      pGreater: 1 / 20,
      pLess: 1,
      arrangements: 20,
    });
  });

  it('counts every arrangement where all values are alike', () => {
    expect(permutationTest([5, 5], [5, 5, 5])).toMatchObject({ pTwoSided: 1, pLess: 1, pGreater: 1 });
  });

  it('draws the same for the same seed, and close to what counting every arrangement gives', () => {
    const a = [12, 15, 11, 19, 14, 16, 18, 22, 13, 17, 20, 25];
    const b = [10, 14, 9, 12, 16, 11, 13, 15, 8, 17, 12, 19, 11, 13];
    const drawn = answered(permutationTest(a, b, { seed: 7, replicates: 20_000 }));
    expect(drawn).toMatchObject({ exact: false, seed: 7, replicates: 20_000, arrangements: 9_657_700 });
    expect(permutationTest(a, b, { seed: 7, replicates: 20_000 })).toEqual(drawn);
    expect(answered(permutationTest(a, b, { seed: 8, replicates: 20_000 })).pTwoSided).not.toBe(drawn.pTwoSided);
    // The values are whole numbers, so their sums can be counted as those of ranks are.
    const sums = sumDistribution([...a, ...b], a.length);
    const seen = a.reduce((sum, value) => sum + value, 0);
    expect(Math.abs(drawn.pGreater - sums.atLeast(seen))).toBeLessThan(4 * Math.sqrt(sums.atLeast(seen) / 20_000));
  });

  it('finds the smaller group on either side', () => {
    const small = [7, 9];
    const large = [1, 2, 3, 8, 4];
    const there = answered(permutationTest(small, large, { statistic: 'rank-sum' }));
    const back = answered(permutationTest(large, small, { statistic: 'rank-sum' }));
    expect(back.pLess).toBeCloseTo(there.pGreater, 12);
    expect(back.pTwoSided).toBeCloseTo(there.pTwoSided, 12);
  });
});

describe('holm', () => {
  it('never lowers a p and keeps their order', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 }), (p) => {
        const { adjusted } = answered(holm(p, 0.05));
        const order = p.map((_, index) => index).sort((i, j) => (p[i] as number) - (p[j] as number));
        order.forEach((index, place) => {
          expect(adjusted[index]).toBeGreaterThanOrEqual(p[index] as number);
          if (place > 0) expect(adjusted[index]).toBeGreaterThanOrEqual(adjusted[order[place - 1] as number] as number);
        });
      }),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { equivalence } from './equivalence.js';
import { freemanHalton } from './freeman-halton.js';
import { gehanTest } from './gehan-test.js';
import { mannWhitney } from './mann-whitney.js';
import { nonInferiority } from './non-inferiority.js';
import { smallestDifferenceOfMeans } from './smallest-difference.js';
import { smallestShiftByRanks } from './smallest-shift-by-ranks.js';
import { welch } from './welch.js';

const A = [14.1, 15.2, 13.8, 16.0, 15.1];
const B = [15.9, 16.8, 15.5, 17.4];

describe('freemanHalton', () => {
  it('is Fisher’s test of the lady tasting tea', () => {
    // Fisher (1935), The Design of Experiments, chapter 2: 3 of 4 right by 17 of 70 orders on one side.
    const found = freemanHalton([
      [3, 1],
      [1, 3],
    ]);
    expect(found).toMatchObject({
      p: expect.closeTo(34 / 70, 12),
      chanceOfTable: expect.closeTo(16 / 70, 12),
      tables: 5,
    });
  });

  // Python 3.11, fractions: every table with the totals, counted one by one.
  it.each([
    [
      [
        [0, 10],
        [3, 0],
        [1, 0],
      ],
      1 / 1001,
    ],
    [
      [
        [3, 2],
        [1, 6],
        [4, 0],
      ],
      0.0242424242424,
    ],
    [
      [
        [2, 3],
        [2, 2],
        [1, 4],
        [0, 1],
      ],
      0.8667998668,
    ],
  ] as const)('counts the tables of %j', (counts, p) => {
    expect(freemanHalton(counts as unknown as [number, number][])).toMatchObject({ p: expect.closeTo(p, 8) });
  });

  it('says why it cannot say', () => {
    expect(freemanHalton([[3, 4]])).toMatchObject({
      notEvaluated: { because: expect.stringContaining('one category') },
    });
    expect(
      freemanHalton([
        [3, 0],
        [2, 0],
      ]),
    ).toMatchObject({ notEvaluated: { because: expect.stringContaining('empty') } });
    const many = Array.from({ length: 12 }, () => [20, 20] as const);
    expect(freemanHalton(many)).toMatchObject({ notEvaluated: { because: expect.stringContaining('more than') } });
    expect(() => freemanHalton([[1, -1]])).toThrow('counts[0][1]');
  });
});

describe('gehanTest', () => {
  // Weeks of remission: Freireich et al. (1963), Blood 21, 699-716, as in Gehan (1965), Biometrika 52, 203-223.
  const drug = { exact: [6, 6, 6, 7, 10, 13, 16, 22, 23], atLeast: [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35] };
  const placebo = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];
  const exact = (value: number) => ({ from: value, to: value });
  const treated = [
    ...drug.exact.map(exact),
    ...drug.atLeast.map((value) => ({ from: value, to: Number.POSITIVE_INFINITY })),
  ];

  it('finds the published score of the remission data', () => {
    const found = gehanTest(treated, placebo.map(exact), { seed: 2 });
    // W = 271 as published (from memory); standard deviation by Mantel's formula in Python.
    expect(found).toMatchObject({ w: 271, sd: expect.closeTo(75.129, 3), exact: false });
    expect((found as { pTwoSided: number }).pTwoSided).toBeLessThan(0.001);
  });

  it('is the test of rank sums where every value is exact, on either side', () => {
    const forward = gehanTest(A.map(exact), B.map(exact));
    // SciPy 1.17.1, mannwhitneyu(A, B, method='exact'): statistic 2, p 0.06349206349206349; pairs above less below: 2 - 18.
    expect(forward).toMatchObject({ w: -16, pTwoSided: expect.closeTo(0.0634920635, 9), exact: true });
    expect(gehanTest(B.map(exact), A.map(exact))).toMatchObject({ w: 16 });
  });

  it('orders only what is surely ordered', () => {
    expect(gehanTest([{ from: 5, to: Number.POSITIVE_INFINITY }], [exact(9)])).toMatchObject({
      notEvaluated: { because: expect.stringContaining('surely') },
    });
    expect(gehanTest([{ from: 1, to: 2 }], [{ from: 3, to: 4 }])).toMatchObject({ w: -1 });
    expect(() => gehanTest([{ from: 2, to: 1 }], [exact(1)])).toThrow('up to another');
  });
});

describe('nonInferiority', () => {
  it('is one of the two tests of equivalence', () => {
    const both = equivalence(A, B, [-4, 4], 0.9) as { pLower: number; pUpper: number; limits: [number, number] };
    const higher = nonInferiority(A, B, { better: 'higher', margin: 4, confidence: 0.95 });
    expect(higher).toMatchObject({
      p: expect.closeTo(both.pLower, 12),
      limit: expect.closeTo(both.limits[0], 12),
      nonInferior: true,
    });
    const lower = nonInferiority(A, B, { better: 'lower', margin: 4, confidence: 0.95 });
    expect(lower).toMatchObject({ p: expect.closeTo(both.pUpper, 12), limit: expect.closeTo(both.limits[1], 12) });
  });

  it('is shown just where the limit lies within the margin', () => {
    const { limits } = welch(A, B, 0.9) as { limits: [number, number] };
    for (const [margin, shown] of [
      [-limits[0] + 1e-6, true],
      [-limits[0] - 1e-6, false],
    ] as const)
      expect(nonInferiority(A, B, { better: 'higher', margin, confidence: 0.95 })).toMatchObject({
        nonInferior: shown,
      });
    expect(nonInferiority([1], B, { better: 'higher', margin: 1, confidence: 0.95 })).toHaveProperty('notEvaluated');
  });
});

describe('smallestDifferenceOfMeans', () => {
  it('is the one that the noncentral t gives', () => {
    // SciPy 1.17.1, nct: two groups of 17 that lie 0.99 scatters apart are told apart with power 0.7992 at two-sided 0.05.
    const group = Array.from({ length: 17 }, (_, index) => index);
    const sd = Math.sqrt(25.5);
    const found = smallestDifferenceOfMeans(
      group,
      group.map((value) => value + 1),
      { alpha: 0.05, power: 0.8, sides: 2 },
    );
    expect((found as { difference: number }).difference / sd).toBeCloseTo(0.991, 3);
  });

  it('grows with power and with a stricter level', () => {
    const at = (alpha: number, power: number) =>
      (smallestDifferenceOfMeans(A, B, { alpha, power, sides: 1 }) as { difference: number }).difference;
    expect(at(0.05, 0.9)).toBeGreaterThan(at(0.05, 0.5));
    expect(at(0.01, 0.9)).toBeGreaterThan(at(0.05, 0.9));
    // Half power: the difference that the critical value just is, but for the skew of the noncentral t.
    expect(at(0.05, 0.5)).toBeGreaterThan(0);
  });
});

describe('smallestShiftByRanks', () => {
  it('is found as often as it says by the test itself, for groups drawn from the same values', () => {
    const [a, b] = [
      [-1.6, -0.9, -0.3, 0.2, 0.8, 1.5],
      [-1.3, -0.6, -0.1, 0.4, 1.1, 1.7],
    ];
    const found = smallestShiftByRanks(a, b, { alpha: 0.05, power: 0.9, sides: 1, seed: 4 });
    const { shift } = found as { shift: number };
    const middle = (values: number[]) => ((values[2] as number) + (values[3] as number)) / 2;
    const residuals = [...a.map((value) => value - middle(a)), ...b.map((value) => value - middle(b))];
    const { uniform } = seededGenerator(9);
    const drawn = () => residuals[Math.floor(uniform() * residuals.length)] as number;
    let called = 0;
    const trials = 600;
    for (let trial = 0; trial < trials; trial++) {
      // A hair beyond, where differences just reach it; ties are broken by as little.
      const group = (by: number) => Array.from({ length: 6 }, () => drawn() + by + 1e-9 * uniform());
      const tested = mannWhitney(group(-shift - 1e-6), group(0), 0.9);
      if ((tested as { pLess: number }).pLess <= 0.05) called++;
    }
    expect(Math.abs(called / trials - 0.9)).toBeLessThan(0.045);
  });

  it('says where no order of so few values is called out', () => {
    const few = smallestShiftByRanks([1, 2, 3], [2, 3, 4], { alpha: 0.04, power: 0.9, sides: 1 });
    expect(few).toMatchObject({ notEvaluated: { because: expect.stringContaining('no order') } });
    // C(6, 3) = 20 orders, one of them the most extreme.
    expect(smallestShiftByRanks([1, 2, 3], [2, 3, 4], { alpha: 0.05, power: 0.9, sides: 1 })).toHaveProperty('shift');
  });
});

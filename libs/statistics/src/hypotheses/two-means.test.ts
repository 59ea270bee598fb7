import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { equivalence } from './equivalence.js';
import { varianceRatio } from './variance-ratio.js';
import { welch } from './welch.js';

const A = [12.1, 13.5, 11.8, 14];
const B = [10.2, 11.8, 11.1, 10.9, 12];

describe('welch', () => {
  it('turns round with its groups', () => {
    const there = welch(A, B, 0.9);
    const back = welch(B, A, 0.9);
    if ('notEvaluated' in there || 'notEvaluated' in back) throw new Error('both groups scatter');
    expect(back).toMatchObject({ difference: -there.difference, t: -there.t, p: there.p });
    expect(back.limits).toEqual([-there.limits[1], -there.limits[0]]);
  });

  it('has limits that leave out 0 exactly where p is small enough', () => {
    const group = fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(group, group, fc.boolean(), (a, b, pooled) => {
        const found = welch(a, b, 0.95, { pooled });
        if ('notEvaluated' in found || Math.abs(found.p - 0.05) < 1e-9) return;
        expect(found.limits[0] > 0 || found.limits[1] < 0).toBe(found.p < 0.05);
      }),
    );
  });

  it('is the pooled test for groups of one size and scatter', () => {
    const moved = A.map((value) => value + 1);
    expect(welch(A, moved, 0.95)).toMatchObject({ df: expect.closeTo(6, 9) });
    expect((welch(A, moved, 0.95, { pooled: true }) as { p: number }).p).toBeCloseTo(
      (welch(A, moved, 0.95) as { p: number }).p,
      12,
    );
  });

  it('keeps its digits where the values share many', () => {
    const far = (values: number[]) => values.map((value) => Math.round(value * 8) + 2 ** 45);
    const near = (values: number[]) => values.map((value) => Math.round(value * 8));
    expect(welch(far(A), far(B), 0.95)).toEqual(welch(near(A), near(B), 0.95));
  });

  it.each([
    [[1], [2, 3], 'fewer than 2'],
    [[1, 1], [2, 2], 'the same number'],
  ])('says why %j and %j cannot be compared', (a, b, because) => {
    expect(welch(a, b, 0.95)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });
});

describe('varianceRatio', () => {
  it('is the same question either way round', () => {
    const there = varianceRatio(A, B) as { f: number; p: number };
    expect(varianceRatio(B, A)).toMatchObject({
      f: expect.closeTo(1 / there.f, 12),
      p: expect.closeTo(there.p, 12),
      df: [4, 3],
    });
  });

  it('says why there is no ratio to no scatter', () => {
    expect(varianceRatio([1, 2], [3, 3])).toMatchObject({ notEvaluated: {} });
    expect(varianceRatio([1], [3, 4])).toMatchObject({ notEvaluated: {} });
  });
});

describe('equivalence', () => {
  it('agrees with its own two p', () => {
    const group = fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(group, group, fc.double({ min: 0.1, max: 8, noNaN: true }), (a, b, width) => {
        const found = equivalence(a, b, [-width, width], 0.9);
        if ('notEvaluated' in found) return;
        const worst = Math.max(found.pLower, found.pUpper);
        if (Math.abs(worst - 0.05) > 1e-9) expect(found.equivalent).toBe(worst < 0.05);
      }),
    );
  });

  it('is never shown by few values that scatter much, however alike the means', () => {
    expect(equivalence([1, 9], [2, 8], [-1, 1], 0.9)).toMatchObject({ difference: 0, equivalent: false });
  });

  it('refuses a margin that runs downward', () => {
    expect(() => equivalence(A, B, [1, -1], 0.9)).toThrow('runs upward; got 1 to -1');
  });
});

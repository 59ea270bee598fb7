import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitAbove, limitQuantile, limitSd } from './anderson-darling-limit.js';
import { kSampleAndersonDarling } from './k-sample-anderson-darling.js';

describe('limitAbove', () => {
  // Marsaglia and Marsaglia (2004), J. Statist. Softw. 9(2), from memory: the limit for one sample exceeds 2.4924 with a
  // chance of 0.05 and 3.8781 with 0.01. (Older tables print 3.857 for 0.01, where the chance is 0.01024.)
  it('gives the points of the one-sample limit', () => {
    expect(limitAbove(2.4924, 1)).toBeCloseTo(0.05, 4);
    expect(limitAbove(3.8781, 1)).toBeCloseTo(0.01, 5);
  });

  // The sum of Y_j / (j (j + 1)) with Y_j chi-square of 2 degrees: partial fractions give the closed form
  // sum over j of (-1)^(j - 1) (2 j + 1) exp(-j (j + 1) x / 2), the residues of M(s) / s.
  it('agrees with the closed form for three groups', () => {
    for (const x of [0.5, 1, 2, 4, 9, 30, 150]) {
      let sum = 0;
      for (let j = 40; j >= 1; j--) sum += (j % 2 === 1 ? 1 : -1) * (2 * j + 1) * Math.exp((-j * (j + 1) * x) / 2);
      expect(Math.abs(limitAbove(x, 2) / sum - 1), `at ${x}`).toBeLessThan(x > 100 ? 1e-2 : 1e-10);
    }
  });

  it('is undone by its quantile', () => {
    for (const m of [1, 2, 5, 30])
      for (const above of [0.9, 0.5, 0.05, 1e-4]) expect(limitAbove(limitQuantile(above, m), m)).toBeCloseTo(above, 9);
  });

  // Scholz and Stephens (1987), table 1 (from memory): 5 % points of the standardised limit.
  it.each([
    [1, 1.96],
    [2, 1.945],
    [3, 1.915],
    [4, 1.894],
    [6, 1.859],
    [8, 1.839],
    [10, 1.823],
  ])('for m = %d has its 5 %% point at %d', (m, point) => {
    expect(Math.abs((limitQuantile(0.05, m) - m) / limitSd(m) - point)).toBeLessThan(0.005);
  });
});

describe('kSampleAndersonDarling', () => {
  const group = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 2, maxLength: 12 });

  it('does not care for the order of groups or of values, nor for how values are scaled', () => {
    fc.assert(
      fc.property(fc.array(group, { minLength: 2, maxLength: 5 }), (groups) => {
        const found = kSampleAndersonDarling(groups);
        if ('notEvaluated' in found) return;
        const turned = groups.toReversed().map((values) => values.toReversed().map((value) => Math.exp(value / 7)));
        expect(kSampleAndersonDarling(turned)).toMatchObject({
          statistic: expect.closeTo(found.statistic, 10),
          p: expect.closeTo(found.p, 10),
        });
      }),
      { numRuns: 60 },
    );
  });

  it('takes critical values at other levels from the limit, close to the published ones', () => {
    const groups = [
      [1, 4, 6, 7, 9, 11],
      [2, 3, 5, 8, 10, 12],
      [1.5, 3.5, 6.5, 7.5, 8.5, 13],
    ];
    for (const alpha of [0.25, 0.1, 0.05, 0.025, 0.01]) {
      const published = kSampleAndersonDarling(groups, alpha) as { critical: number };
      const near = kSampleAndersonDarling(groups, alpha * (1 + 1e-9)) as { critical: number; criticalFrom: string };
      expect(near.criticalFrom).toBe('limiting distribution');
      expect(Math.abs(near.critical / published.critical - 1)).toBeLessThan(0.01);
    }
  });

  it('sees groups that lie apart', () => {
    const apart = [
      [1, 2, 3, 4, 5],
      [6, 7, 8, 9, 10],
    ];
    expect(kSampleAndersonDarling(apart)).toMatchObject({ same: false });
  });

  it.each([
    [[[1, 2]], 'cannot differ'],
    [[[1, 2], [3]], 'single value'],
    [
      [
        [5, 5],
        [5, 5],
      ],
      'the same number',
    ],
  ])('says why %j is not evaluated', (groups, because) => {
    expect(kSampleAndersonDarling(groups)).toMatchObject({
      notEvaluated: { because: expect.stringContaining(because) },
    });
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AnovaBound, anovaBound } from './anova-bound.js';
import { normalToleranceFactor } from './normal-tolerance-factor.js';

const B = { coverage: 0.9, confidence: 0.95 };

function bounded(groups: number[][]): AnovaBound {
  const found = anovaBound(groups, B);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('anovaBound', () => {
  // The two limits that any implementation must satisfy (MIL-HDBK-17-1F, section 8.3.5.2).
  it('takes the factor of all values where batches do not differ', () => {
    const { factor, betweenSd } = bounded([
      [98, 100, 102, 104],
      [99, 100, 101, 104],
      [97, 101, 102, 104],
    ]);
    expect(betweenSd).toBe(0);
    expect(factor).toBeCloseTo(normalToleranceFactor({ n: 12, ...B }).k, 10);
  });

  it('nears the factor of one value a batch where everything lies between them', () => {
    const { factor } = bounded([
      [100, 100.001],
      [110, 110.001],
      [123, 123.001],
      [131, 131.001],
    ]);
    expect(factor).toBeCloseTo(normalToleranceFactor({ n: 4, ...B }).k, 3);
  });

  it('says why one batch, or batches of one value, give no bound', () => {
    expect(anovaBound([[1, 2, 3]], B)).toMatchObject({ notEvaluated: { possibleIf: expect.any(String) } });
    expect(anovaBound([[1], [2], [3]], B)).toMatchObject({ notEvaluated: {} });
    // One value beside a pair: n' is above 1, so there is a bound, if a wide one.
    expect(bounded([[1, 2], [3]]).bound).toBeLessThan(0);
  });

  it('moves with the unit and the zero, and not with the order of batches', () => {
    const batch = fc.array(fc.integer({ min: 900, max: 1100 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(fc.array(batch, { minLength: 2, maxLength: 6 }), (groups) => {
        fc.pre(groups.some((group) => new Set(group).size > 1));
        const here = bounded(groups);
        const there = bounded(groups.toReversed().map((group) => group.map((x) => 0.145 * x - 40)));
        expect(there.bound).toBeCloseTo(0.145 * here.bound - 40, 6);
        expect(here.bound).toBeLessThan(here.mean);
      }),
      { numRuns: 50 },
    );
  });
});

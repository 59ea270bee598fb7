import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asJudged, bound } from '../fixtures/judged-lot.js';

type Distribution = 'normal' | 'lognormal';

const lineOf = (values: readonly number[], distribution: Distribution) => {
  const [line] = asJudged(
    values.map((value) => ({ value })),
    { specimens: values.length, criteria: [bound(distribution)] },
  ).lines;
  if (!line) throw new Error('the lot has a line');
  return line;
};
const outlierIn = (values: readonly number[], distribution: Distribution) => lineOf(values, distribution).outliers?.[0];

/** Strengths of one lot in kPa, one of them as far out as it comes: no two alike, so that one is the farthest. */
const strengths = fc
  .uniqueArray(fc.integer({ min: 1600, max: 1900 }), { minLength: 4, maxLength: 9 })
  .chain((values) =>
    fc.integer({ min: 300, max: 1590 }).map((far) => (values.length % 2 ? [...values, far] : [far + 1700, ...values])),
  );
const few = { numRuns: 25, seed: 1 };

/** What of a finding hangs on how the values lie to each other, and what on the values. */
const shape = (values: readonly number[], distribution: Distribution) => {
  const found = outlierIn(values, distribution);
  return found && { specimen: found.specimen, side: found.side, statistic: Number(found.statistic.toFixed(6)) };
};

describe('a value far from the others', () => {
  it('is found in some of the lots drawn here and not in others', () => {
    const found = fc.sample(strengths, { numRuns: 25, seed: 1 }).map((values) => outlierIn(values, 'normal'));
    expect(found.some(Boolean)).toBe(true);
    expect(found.every(Boolean)).toBe(false);
  });

  it('stays so whatever the zero and the unit of the values', () => {
    fc.assert(
      fc.property(strengths, fc.integer({ min: -200, max: 4000 }), fc.integer({ min: 1, max: 50 }), (values, b, a) => {
        const moved = values.map((value) => (a / 10) * value + b);
        expect(shape(moved, 'normal')).toEqual(shape(values, 'normal'));
      }),
      few,
    );
  });

  it('stays so in logarithms whatever the unit and the power of the values', () => {
    fc.assert(
      fc.property(strengths, fc.integer({ min: 1, max: 50 }), fc.integer({ min: 5, max: 20 }), (values, a, power) => {
        const moved = values.map((value) => (a / 10) * value ** (power / 10));
        expect(shape(moved, 'lognormal')).toEqual(shape(values, 'lognormal'));
      }),
      few,
    );
  });

  it('is the same value in whatever order the specimens were tested', () => {
    fc.assert(
      fc.property(strengths, (values) => {
        const [one, turned] = [values, values.toReversed()].map((some) => outlierIn(some, 'normal'));
        expect(turned?.value).toBe(one?.value);
        expect(turned?.side).toBe(one?.side);
      }),
      few,
    );
  });

  it('lies low where it lay high when all values are mirrored', () => {
    fc.assert(
      fc.property(strengths, (values) => {
        const mirrored = values.map((value) => 6000 - value);
        const [one, other] = [shape(values, 'normal'), shape(mirrored, 'normal')];
        expect(other).toEqual(one && { ...one, side: one.side === 'low' ? 'high' : 'low' });
      }),
      few,
    );
  });

  it('is the least or the greatest, stays in the claim, and its bounds are those with and without it', () => {
    fc.assert(
      fc.property(strengths, (values) => {
        const line = lineOf(values, 'normal');
        expect(line.counts.inClaim).toBe(values.length);
        const [found] = line.outliers ?? [];
        if (!found) return;
        expect(found.value).toBe(found.side === 'low' ? Math.min(...values) : Math.max(...values));
        expect(found.statistic).toBeGreaterThan(found.critical);
        const [both] = found.bounds;
        expect(both?.with).toBe(line.criteria[0]?.bound?.value);
        const without = lineOf(
          values.filter((value) => value !== found.value),
          'normal',
        );
        expect(both?.without).toBe(without.criteria[0]?.bound?.value);
      }),
      few,
    );
  });

  it('is not looked for among two values, or values all alike', () => {
    expect(outlierIn([1500, 1900], 'normal')).toBeUndefined();
    expect(outlierIn([1700, 1700, 1700, 1700], 'normal')).toBeUndefined();
  });
});

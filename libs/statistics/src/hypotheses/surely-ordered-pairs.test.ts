import { isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import type { Within } from './gehan-test.js';
import { mannWhitney } from './mann-whitney.js';
import { surelyOrderedPairs } from './surely-ordered-pairs.js';

const exactly = (...values: number[]): Within[] => values.map((value) => ({ from: value, to: value }));
const atLeast = (value: number): Within => ({ from: value, to: Number.POSITIVE_INFINITY });

function told(a: readonly Within[], b: readonly Within[], shift = 0) {
  const found = surelyOrderedPairs(a, b, shift);
  if (isNotEvaluated(found)) throw new Error(found.notEvaluated.because);
  return found;
}

describe('surelyOrderedPairs', () => {
  it('has the tail of Mann and Whitney, by counting arrangements of 4 and 4', () => {
    // Of the 70 arrangements, 1 has all 16 pairs ordered, 1 has 15, 2 have 14: Mann and Whitney (1947), table 1, n = m = 4.
    expect(told(exactly(5, 6, 7, 8), exactly(1, 2, 3, 4)).p).toBeCloseTo(1 / 70, 12);
    expect(told(exactly(4, 6, 7, 8), exactly(1, 2, 3, 5)).p).toBeCloseTo(2 / 70, 12);
    expect(told(exactly(4, 5, 7, 8), exactly(1, 2, 3, 6)).p).toBeCloseTo(4 / 70, 12);
  });

  it('is the one-sided Mann-Whitney test where all values are exact', () => {
    const [a, b] = [
      [12.1, 14.3, 11.8, 15.2, 13.9],
      [11.5, 12.6, 10.9, 13.1],
    ];
    const tested = mannWhitney(a, b, 0.95);
    if (isNotEvaluated(tested)) throw new Error('not evaluated');
    expect(told(exactly(...a), exactly(...b)).p).toBeCloseTo(tested.pGreater, 12);
  });

  it('counts no pair that could be ordered the other way', () => {
    expect(told([atLeast(10)], exactly(8, 12)).above).toBe(1);
    expect(told(exactly(20), [atLeast(10)]).above).toBe(0);
    expect(told(exactly(10), exactly(10)).above).toBe(0);
    expect(told(exactly(10), exactly(11), 2).above).toBe(1);
  });

  it('calls out no more often than stated at the margin, whatever ends tests early', () => {
    const chance = seededGenerator(20261126);
    const [rounds, margin] = [4000, 1];
    let called = 0;
    for (let round = 0; round < rounds; round++) {
      const draw = (mean: number, end: number): Within[] =>
        Array.from({ length: 6 }, () => {
          const value = mean + chance.normal();
          return value > end ? atLeast(end) : { from: value, to: value };
        });
      // As far below as the margin, so that "within the margin" is just not so; a is ended sooner than b.
      if (told(draw(-margin, 0.2), draw(0, 1.5), margin).p <= 0.05) called++;
    }
    expect(called / rounds).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / rounds));
    expect(called).toBeGreaterThan(0);
  });

  it('says nothing of an empty group', () => {
    expect(isNotEvaluated(surelyOrderedPairs([], exactly(1), 0))).toBe(true);
  });
});

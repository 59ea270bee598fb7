import { describe, expect, it } from 'vitest';
import { timeAbove } from './time-above.js';

const time = (...values: number[]) => Float64Array.from(values);

describe('timeAbove', () => {
  // Straight lines: the crossings are where the line meets the level.
  it.each<[string, number[], number[], number, number]>([
    ['a line up', [0, 10], [0, 100], 25, 7.5],
    ['a line down', [0, 10], [100, 0], 25, 7.5],
    ['up and down', [0, 10, 30], [0, 100, 0], 50, 15],
    ['always above', [0, 1, 2], [9, 9, 9], 5, 2],
    ['never above', [0, 1, 2], [1, 1, 1], 5, 0],
    ['touching from below', [0, 1, 2], [0, 5, 0], 5, 0],
    ['from the level up', [0, 10], [5, 15], 5, 10],
    ['a gap is not counted', [0, 1, 9, 10], [9, 9, 9, 9], 5, 2],
  ])('%s', (_, at, values, level, expected) => {
    const span = { from: 0, last: at.length - 1 };
    expect(timeAbove(time(...at), time(...values), level, span, _.startsWith('a gap') ? 2 : 100)).toBeCloseTo(
      expected,
      12,
    );
  });
});

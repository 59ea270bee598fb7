import { describe, expect, it } from 'vitest';
import { columnDigest, numbersDigest } from './numbers-digest.js';

const time = [0, 0.5, 1];
const force = [1.5, 2.25, -3];

const digestOf = (columns: readonly ArrayLike<number>[]) => numbersDigest(columns.map(columnDigest));

describe('numbersDigest', () => {
  it('is the same for the same numbers, in whatever order their columns stand and however they are held', () => {
    const digest = digestOf([time, force]);
    expect(digest).toMatch(/^[0-9a-f]{64}$/);
    expect(digestOf([force, time])).toBe(digest);
    expect(digestOf([Float64Array.from(time), Float64Array.from(force)])).toBe(digest);
  });

  it.each([
    ['another number', [time, [1.5, 2.25, -3.0000000001]]],
    ['two numbers changed over', [time, [2.25, 1.5, -3]]],
    [
      'a row more',
      [
        [...time, 1.5],
        [...force, 0],
      ],
    ],
    ['a column less', [force]],
    [
      'a row moved between columns',
      [
        [...time, 1.5],
        [2.25, -3],
      ],
    ],
  ])('is another for %s', (_, columns) => {
    expect(digestOf(columns)).not.toBe(digestOf([time, force]));
  });
});

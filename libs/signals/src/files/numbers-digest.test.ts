import { describe, expect, it } from 'vitest';
import { numbersDigest } from './numbers-digest.js';

const time = [0, 0.5, 1];
const force = [1.5, 2.25, -3];

describe('numbersDigest', () => {
  it('is the same for the same numbers, in whatever order their columns stand and however they are held', () => {
    const digest = numbersDigest([time, force]);
    expect(digest).toMatch(/^[0-9a-f]{64}$/);
    expect(numbersDigest([force, time])).toBe(digest);
    expect(numbersDigest([Float64Array.from(time), Float64Array.from(force)])).toBe(digest);
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
    expect(numbersDigest(columns)).not.toBe(numbersDigest([time, force]));
  });
});

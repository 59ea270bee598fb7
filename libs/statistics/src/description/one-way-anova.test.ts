import { describe, expect, it } from 'vitest';
import { oneWayAnova } from './one-way-anova.js';

describe('oneWayAnova', () => {
  it('splits all squares into those between and those within the groups', () => {
    // By hand: means 2 and 5, overall 3.5; between 6 * 1.5^2, within 2 + 2.
    expect(
      oneWayAnova([
        [1, 2, 3],
        [4, 5, 6],
      ]),
    ).toMatchObject({
      between: { df: 1, ss: 13.5, ms: 13.5 },
      within: { df: 4, ss: 4, ms: 1 },
      f: 13.5,
      rSquared: 13.5 / 17.5,
      residualSd: 1,
    });
  });

  it('does not depend on what all values have in common', () => {
    const groups = [
      [1, 4, 2],
      [7, 3, 8],
      [2, 2, 5],
    ];
    const shifted = groups.map((values) => values.map((value) => value + 2 ** 40));
    expect(oneWayAnova(shifted)).toEqual(oneWayAnova(groups));
  });

  it.each([
    [[[1, 2]], 'cannot differ'],
    [[[1, 2], []], 'groups[1] has no values'],
    [[[1], [2]], 'no group has more than one value'],
    [
      [
        [0.1, 0.1, 0.1],
        [0.7, 0.7, 0.7],
      ],
      'no values within a group differ',
    ],
  ])('says why %j cannot be compared', (groups, because) => {
    expect(oneWayAnova(groups)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });
});

import { describe, expect, it } from 'vitest';
import { bartlettTest, equalVariance } from './equal-variance.js';
import { kruskalWallis } from './kruskal-wallis.js';
import { midranks } from './midranks.js';

describe('midranks', () => {
  it('lets equal values share the mean of their ranks', () => {
    expect(midranks([30, 10, 20, 10, 10])).toEqual({ ranks: [5, 2, 4, 2, 2], ties: [3, 1, 1] });
  });
});

describe('kruskalWallis', () => {
  it('gives the statistic that can be had by hand', () => {
    // Ranks 1 2 3 against 4 5 6: 12 / 42 * (36 / 3 + 225 / 3) - 21 = 27 / 7.
    const found = kruskalWallis([
      [11, 12, 13],
      [14, 15, 16],
    ]);
    expect(found).toMatchObject({ statistic: expect.closeTo(27 / 7, 12), df: 1 });
  });

  it('sees groups through any scale that keeps the order', () => {
    const groups = [
      [1, 2, 2, 5],
      [2, 3, 8],
      [0.5, 9, 4],
    ];
    expect(kruskalWallis(groups.map((values) => values.map((value) => value ** 3)))).toEqual(kruskalWallis(groups));
  });

  it('says why values all alike cannot be ranked', () => {
    expect(kruskalWallis([[4, 4], [4]])).toMatchObject({ notEvaluated: { because: expect.stringContaining('same') } });
    expect(kruskalWallis([[4, 4]])).toMatchObject({ notEvaluated: {} });
  });
});

describe('equalVariance and bartlettTest', () => {
  const groups = [
    [1, 2, 4, 8],
    [3, 4, 4.5, 6],
    [0, 10, 20, 35],
  ];

  it('find the same scatter in groups that lie elsewhere', () => {
    const moved = groups.map((values, index) => values.map((value) => value + 2 ** 30 * index));
    expect(equalVariance(moved)).toEqual(equalVariance(groups));
    expect(bartlettTest(moved)).toMatchObject({
      statistic: expect.closeTo((bartlettTest(groups) as { statistic: number }).statistic, 10),
    });
  });

  it('find no difference at all between mirror images', () => {
    const [one] = groups as [number[]];
    expect(bartlettTest([one, one.map((value) => -value)])).toMatchObject({ statistic: 0, p: 1 });
    expect(equalVariance([one, one.map((value) => -value)])).toMatchObject({ statistic: 0, p: 1 });
  });

  it.each([
    [[[1, 2, 3], [4]], 'single value'],
    [[[1, 2, 3]], 'cannot differ'],
    [
      [
        [1, 2],
        [3, 4],
      ],
      'equally far',
    ],
  ])('says why distances in %j cannot be compared', (given, because) => {
    expect(equalVariance(given)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });

  it('says why Bartlett cannot use a group without scatter', () => {
    expect(
      bartlettTest([
        [1, 2, 3],
        [7, 7, 7],
      ]),
    ).toMatchObject({ notEvaluated: { because: expect.stringContaining('groups[1]') } });
  });
});

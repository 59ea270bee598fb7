import { describe, expect, it } from 'vitest';
import { plottingPositions, plottingPositionsOf } from './plotting-positions.js';

describe('plottingPositions', () => {
  // Closed form: the median of Beta(1, n) is 1 - 2^(-1/n).
  it('gives the closed form at the first rank', () => {
    for (const n of [1, 2, 5, 40]) expect(plottingPositionsOf(n).points[0]?.exact).toBeCloseTo(1 - 2 ** (-1 / n), 14);
  });

  it('gives plain ranks where nothing was withdrawn, whatever the order', () => {
    const positions = plottingPositions({ exact: [30, 10, 20] });
    expect(positions).toMatchObject({
      points: [
        { value: 10, adjustedRank: 1 },
        { value: 20, adjustedRank: 2 },
        { value: 30, adjustedRank: 3 },
      ],
    });
  });

  // Johnson (1964), the usual teaching case F S F S F: ranks 1, 2.25, 4.125.
  it('raises ranks where specimens were withdrawn before', () => {
    const positions = plottingPositions({ exact: [10, 30, 50], atLeast: [20, 40] });
    expect(positions).toMatchObject({ points: [{ adjustedRank: 1 }, { adjustedRank: 2.25 }, { adjustedRank: 4.125 }] });
  });

  it('gives no ranks to intervals, and none without a break', () => {
    expect(plottingPositions({ exact: [1], between: [[1, 2]] })).toMatchObject({ notEvaluated: {} });
    expect(plottingPositions({ atLeast: [1, 2] })).toMatchObject({ notEvaluated: { because: expect.any(String) } });
  });
});

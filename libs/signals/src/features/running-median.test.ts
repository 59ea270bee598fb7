import { describe, expect, it } from 'vitest';
import { runningMedian } from './running-median.js';

const ramp = Float64Array.from({ length: 50 }, (_, i) => 3 * i);

describe('runningMedian', () => {
  it('leaves a straight ramp as it is', () => {
    expect([...runningMedian(ramp, 5)]).toEqual([...ramp]);
  });

  // A median of 2m + 1 values is unmoved by up to m of them: at the spike it gives a neighbour of the true value.
  it.each([
    [3, [20]],
    [5, [20, 21]],
    [7, [20, 21, 22]],
  ])('of %d samples takes out spikes at %j, up or down', (length, places) => {
    for (const size of [1e6, -1e6]) {
      const spiked = ramp.slice();
      for (const at of places) spiked[at] = size;
      runningMedian(spiked, length).forEach((value, i) => {
        expect(Math.abs(value - (ramp[i] as number))).toBeLessThanOrEqual(3 * places.length);
      });
    }
  });

  it('keeps a sudden fall sharp', () => {
    const step = Float64Array.from({ length: 20 }, (_, i) => (i < 10 ? 100 : 0));
    expect([...runningMedian(step, 5)]).toEqual([...step]);
  });

  it('lowers the end of a ramp that breaks off by at most (length − 1) / 2 samples of rise', () => {
    const broken = Float64Array.from({ length: 20 }, (_, i) => (i < 10 ? 3 * i : 0));
    expect(Math.max(...runningMedian(broken, 5))).toBe(27 - 2 * 3);
  });

  it('with one sample changes nothing, and refuses an even number', () => {
    expect([...runningMedian(ramp, 1)]).toEqual([...ramp]);
    expect(() => runningMedian(ramp, 4)).toThrow('length must be odd and at least 1; got 4');
  });
});

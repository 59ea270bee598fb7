import { describe, expect, it } from 'vitest';
import type { Observations } from '../fits/observations.js';
import { plainObservations } from '../fits/observations.js';
import { standardNormal } from '../fits/standard-normal.js';
import { seededGenerator } from './generator.js';
import { simulatedTest } from './simulated-test.js';

const population = { family: standardNormal, location: 10, scale: 2 };

function drawn(observations: Observations, times = 400): Observations[] {
  const test = simulatedTest(observations);
  const chance = seededGenerator(3);
  return Array.from({ length: times }, () => test.draw(population, chance));
}

describe('simulatedTest', () => {
  it('ends every specimen at the one value that the survivors held', () => {
    for (const { exact, atLeast, n } of drawn(plainObservations('test', { exact: [8, 9], atLeast: [11, 11, 11] }))) {
      expect(exact.length + atLeast.length).toBe(5);
      expect(n).toBe(5);
      expect(exact.every((y) => y <= 11) && atLeast.every((y) => y === 11)).toBe(true);
    }
  });

  it('ends other survivors where they were, and breaks only at ends beyond them', () => {
    const samples = drawn(plainObservations('test', { exact: [9, 12], atLeast: [8, 11] }));
    // A specimen that broke at 9 can be ended at 11 or never, one that broke at 12 never: it may break anywhere.
    const ends = new Set(samples.flatMap(({ atLeast }) => [...atLeast]));
    expect([...ends].sort((a, b) => a - b)).toEqual([8, 11]);
    const most = Math.max(...samples.map(({ atLeast }) => atLeast.length));
    expect(most).toBe(3);
    expect(samples.some(({ exact }) => exact.some((y) => y > 13))).toBe(true);
  });

  it('reads specimens known within an interval at all the ends', () => {
    const sample = {
      between: [
        [8, 10],
        [10, 12],
      ] as [number, number][],
      atMost: [8],
    };
    for (const { lower, upper, atMost, atLeast, exact } of drawn(plainObservations('test', sample), 50)) {
      expect(exact.length).toBe(0);
      expect(lower.length + atMost.length + atLeast.length).toBe(3);
      expect(atMost.every((y) => y === 8) && atLeast.every((y) => y === 12)).toBe(true);
      lower.forEach((low, index) => {
        expect((upper[index] as number) - low).toBe(2);
      });
    }
  });

  it('draws strengths of the population where nothing ends them early', () => {
    const strengths = drawn(plainObservations('test', { exact: [1, 2, 3, 4] }), 2000).flatMap(({ exact }) => [
      ...exact,
    ]);
    const mean = strengths.reduce((sum, y) => sum + y, 0) / strengths.length;
    expect(Math.abs(mean - 10)).toBeLessThan((4 * 2) / Math.sqrt(strengths.length));
  });
});

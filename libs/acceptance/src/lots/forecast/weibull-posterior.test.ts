import { lowerToleranceBound, seededGenerator } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import { weibullPopulations } from './weibull-posterior.js';

const DRAWS = 20_000;

describe('weibullPopulations', () => {
  // The conditional bound of Lawless (1978), Technometrics 20, 355-364, is the quantile of this distribution without its
  // weight of 1 / spread; the bound itself is checked against his worked example in libs/statistics.
  it.each([
    { strengths: [1650, 1720, 1790, 1700, 1610], confidence: 0.9 },
    { strengths: [1200, 1980, 2010, 2050], confidence: 0.95 },
    { strengths: [820, 905, 930, 1004, 1011, 1090, 1150, 1204], confidence: 0.95 },
  ])('has the conditional bound of $strengths as its quantile', ({ strengths, confidence }) => {
    const next = weibullPopulations(strengths.map(Math.log), seededGenerator(5));
    const drawn = Array.from({ length: DRAWS }, () => {
      const { location, spread } = next();
      return { quantile: Math.exp(location + spread * Math.log(-Math.log(0.9))), weight: spread };
    }).sort((a, b) => a.quantile - b.quantile);
    const bound = lowerToleranceBound({
      sample: { exact: strengths },
      coverage: 0.9,
      confidence,
      distribution: 'weibull',
      technique: 'conditional',
    });
    if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
    const all = drawn.reduce((sum, { weight }) => sum + weight, 0);
    const below = drawn.filter(({ quantile }) => quantile < bound.bound).reduce((sum, { weight }) => sum + weight, 0);
    // Large spreads count most and are few: three times the error of so many even draws, and half as much again.
    expect(Math.abs(below / all - (1 - confidence))).toBeLessThan(
      4.5 * Math.sqrt((confidence * (1 - confidence)) / DRAWS),
    );
  });

  it('moves with the strengths, and draws the same from the same seed', () => {
    const y = [1650, 1720, 1790].map(Math.log);
    const [one, again, moved] = [y, y, y.map((value) => value + 3)].map((some) =>
      weibullPopulations(some, seededGenerator(9))(),
    );
    expect(again).toEqual(one);
    expect(moved?.spread).toBeCloseTo(one?.spread as number, 10);
    expect(moved?.location).toBeCloseTo((one?.location as number) + 3, 10);
  });
});

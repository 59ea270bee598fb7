import { describe, expect, it } from 'vitest';
import { gammaShare } from './gamma.js';
import { chiSquareQuantile, gammaQuantile } from './gamma-quantile.js';

describe('gammaQuantile', () => {
  // mpmath 1.3, 30 digits: root of the regularised incomplete gamma function.
  it.each([
    [5.99146454710798, 0.95, 2],
    [10.64464067566842, 0.9, 6],
    [0.003932140000019523, 0.05, 1],
    [73.40195751899104, 0.999, 40],
    [2999.3333596771927, 0.5, 3000],
    [0.3381260032429545, 1e-6, 10],
    [98962.56777829022, 0.01, 100000],
  ])('gives %d for a chi-square at %d with %d degrees', (wanted, p, degrees) => {
    expect(Math.abs(chiSquareQuantile(p, degrees) / wanted - 1)).toBeLessThan(1e-12);
  });

  it('turns the distribution function round, for shapes of a thousand and more too', () => {
    for (const shape of [0.3, 0.5, 1, 7, 60, 1500, 1e6])
      for (const p of [1e-9, 0.01, 0.5, 0.999]) {
        const { below } = gammaShare(shape, gammaQuantile(p, shape));
        expect(Math.abs(below / p - 1), `${shape} ${p}`).toBeLessThan(1e-10);
      }
  });
});

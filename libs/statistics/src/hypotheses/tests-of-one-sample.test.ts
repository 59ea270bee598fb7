import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { criticalNormedResidual, outlierScreen } from './outlier-screen.js';
import { shapiroWilk } from './shapiro-wilk.js';

describe('shapiroWilk', () => {
  it('is exact for 3 values: evenly spaced ones have w = 1 and p = 1', () => {
    expect(shapiroWilk([1, 2, 3])).toMatchObject({ w: 1, p: expect.closeTo(1, 6) });
    // Two equal values and a third have the smallest w there is, 3/4.
    expect(shapiroWilk([1, 1, 2])).toMatchObject({ w: expect.closeTo(0.75, 12), p: expect.closeTo(0, 6) });
  });

  it('is the same for values turned round, moved and stretched', () => {
    const values = [3, 4, 4.5, 6, 9, 9.5, 14, 30];
    const found = shapiroWilk(values) as { w: number; p: number };
    expect(shapiroWilk(values.map((value) => 1e6 - 250 * value))).toMatchObject({
      w: expect.closeTo(found.w, 11),
      p: expect.closeTo(found.p, 11),
    });
  });

  it('ends where its approximation ends', () => {
    expect(shapiroWilk([0, 0, 0, 0, 0, 0, 0, 1e9])).toMatchObject({ p: expect.any(Number) });
  });

  it.each([
    [[1, 2], '2 values'],
    [[4, 4, 4], 'the same number'],
    [Array.from({ length: 5001 }, (_, index) => index), '5000'],
  ])('says why it cannot say', (values, because) => {
    expect(shapiroWilk(values)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });
});

describe('outlierScreen', () => {
  it('can exceed its critical value at all: it lies below the largest residual there can be', () => {
    for (const n of [3, 4, 8, 30]) {
      const largest = (n - 1) / Math.sqrt(n);
      for (const alpha of [0.001, 0.05, 0.5]) expect(criticalNormedResidual(n, alpha, 'both')).toBeLessThan(largest);
    }
  });

  it('looks only at the side it is asked for', () => {
    const values = [9, 10, 10.2, 10.4, 11, 40];
    expect(outlierScreen(values, 0.05, 'upper')).toMatchObject({ index: 5, outlier: true });
    expect(outlierScreen(values, 0.05, 'lower')).toMatchObject({ index: 0, outlier: false });
    expect(
      outlierScreen(
        values.map((value) => -value),
        0.05,
        'lower',
      ),
    ).toMatchObject({ index: 5, outlier: true });
  });

  it('calls out a clean sample no more often than it says', () => {
    const generator = seededGenerator(11);
    const samples = 4000;
    let called = 0;
    for (let sample = 0; sample < samples; sample++) {
      const values = Array.from({ length: 8 }, () => generator.normal());
      if ((outlierScreen(values, 0.05, 'both') as { outlier: boolean }).outlier) called++;
    }
    // Three standard errors above and below 5 %.
    expect(Math.abs(called / samples - 0.05)).toBeLessThan(3 * Math.sqrt((0.05 * 0.95) / samples));
  });

  it.each([
    [[1, 2], '2 values'],
    [[3, 3, 3], 'the same number'],
  ])('says why %j is not evaluated', (values, because) => {
    expect(outlierScreen(values, 0.05)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../distributions/normal.js';
import { weibullQuantile } from '../distributions/weibull.js';
import { seededGenerator } from '../random/generator.js';
import { hansonKoopmansBound, hansonKoopmansFactor } from './hanson-koopmans.js';

function factorOf(...question: Parameters<typeof hansonKoopmansFactor>): number {
  const found = hansonKoopmansFactor(...question);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found.k;
}

function boundOf(...question: Parameters<typeof hansonKoopmansBound>): number {
  const found = hansonKoopmansBound(...question);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found.bound;
}

describe('hansonKoopmansFactor', () => {
  // For two specimens the integral is elementary: 1 - p^2 - 2 (p^c - p^2) / (2 - c) = 1 - confidence, c = 1 / k.
  it.each([
    [0.9, 0.95],
    [0.99, 0.9],
    [0.6, 0.8],
    [0.999, 0.999],
  ])('solves the elementary equation of two specimens at %f with %f', (coverage, confidence) => {
    const p = 1 - coverage;
    const c = 1 / factorOf({ n: 2, coverage, confidence });
    expect(1 - p * p - (2 * (p ** c - p * p)) / (2 - c)).toBeCloseTo(1 - confidence, 10);
  });

  it('says when the weakest specimen is a bound already, and when there is nothing to go by', () => {
    expect(factorOf({ n: 28, coverage: 0.9, confidence: 0.95 })).toBeGreaterThan(1);
    expect(hansonKoopmansFactor({ n: 29, coverage: 0.9, confidence: 0.95 })).toMatchObject({
      notEvaluated: { possibleIf: 'the technique is the order statistic' },
    });
    expect(hansonKoopmansFactor({ n: 1, coverage: 0.9, confidence: 0.95 })).toMatchObject({ notEvaluated: {} });
  });

  it('refuses a rank that is none', () => {
    expect(() => hansonKoopmansFactor({ n: 5, coverage: 0.9, confidence: 0.95, rank: 6 })).toThrow('no rank 6');
    expect(() => hansonKoopmansFactor({ n: 5, coverage: 0.9, confidence: 0.95, rank: 1 })).toThrow('at least 2');
  });
});

describe('hansonKoopmansBound', () => {
  it('has no bound where the strengths do not differ', () => {
    expect(hansonKoopmansBound([4, 4, 4], { coverage: 0.9, confidence: 0.95 })).toMatchObject({ notEvaluated: {} });
  });

  const strengths = fc
    .array(fc.integer({ min: 300, max: 2000 }), { minLength: 2, maxLength: 14 })
    .filter((values) => new Set(values).size === values.length);

  it('moves with the unit and not with the order, falls as coverage or confidence rises, and lies below the weakest', () => {
    fc.assert(
      fc.property(strengths, fc.constantFrom(0.145, 6.894757, 1e5), (values, unit) => {
        const here = boundOf(values, { coverage: 0.9, confidence: 0.95 });
        const turned = values.toReversed().map((x) => x * unit);
        expect(boundOf(turned, { coverage: 0.9, confidence: 0.95 }) / unit / here).toBeCloseTo(1, 9);
        expect(boundOf(values, { coverage: 0.9, confidence: 0.99 })).toBeLessThan(here);
        expect(boundOf(values, { coverage: 0.95, confidence: 0.95 })).toBeLessThan(here);
        expect(here).toBeLessThan(Math.min(...values));
      }),
      { numRuns: 50 },
    );
  });

  // Seeded simulation; a bound that held exactly 95 % of the time would fall below the line once in a thousand.
  it.each([
    { name: 'Weibull', strength: (u: number) => weibullQuantile(u, { shape: 6, scale: 100 }) },
    { name: 'lognormal', strength: (u: number) => Math.exp(0.3 * normalQuantile(u)) },
    { name: 'normal', strength: (u: number) => 100 + 10 * normalQuantile(u) },
    { name: 'uniform', strength: (u: number) => 50 + 50 * u },
  ])('keeps its confidence for $name strength', ({ strength }) => {
    const { uniform } = seededGenerator(28);
    const [n, replicates] = [7, 4000];
    const k = factorOf({ n, coverage: 0.9, confidence: 0.95, rank: 5 });
    let held = 0;
    for (let replicate = 0; replicate < replicates; replicate++) {
      const values = Array.from({ length: n }, () => strength(uniform())).sort((a, b) => a - b);
      const [weakest, other] = [values[0] as number, values[4] as number];
      if (other * (weakest / other) ** k <= strength(0.1)) held++;
    }
    expect(held / replicates).toBeGreaterThan(0.95 - 3.1 * Math.sqrt((0.95 * 0.05) / replicates));
  });
});

import type { Sample } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { weibullKnownShapeBound } from './weibull-known-shape-bound.js';
import { zeroFailureBound } from './zero-failure-bound.js';

function bounded(sample: Sample, question: Parameters<typeof weibullKnownShapeBound>[1]) {
  const found = weibullKnownShapeBound(sample, question);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('weibullKnownShapeBound', () => {
  // Without failures at one common strength the bound says of that strength what Clopper and Pearson (1934) do.
  it('agrees with the count of survivors where none broke', () => {
    const zero = zeroFailureBound(22, 0.9);
    if ('notEvaluated' in zero) throw new Error('there are survivors');
    const { quantiles } = bounded(
      { atLeast: Array(22).fill(1500) },
      { shape: 12, confidence: 0.9, quantiles: [1 - zero.reliability] },
    );
    expect(quantiles[0]?.lower).toBeCloseTo(1500, 8);
  });

  it('says why there is no scale without failures, and no bound without anything held', () => {
    expect(bounded({ atLeast: [4, 5] }, { shape: 3, confidence: 0.9 }).scale).toMatchObject({ notEvaluated: {} });
    expect(weibullKnownShapeBound({ atMost: [4, 5] }, { shape: 3, confidence: 0.9 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('held anything') },
    });
    expect(weibullKnownShapeBound({}, { shape: 3, confidence: 0.9 })).toMatchObject({ notEvaluated: {} });
  });

  it('moves with the unit, keeps large shapes, and falls as confidence rises', () => {
    const strengths = fc.array(fc.integer({ min: 300, max: 2000 }), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(strengths, strengths, fc.double({ min: 0.5, max: 200, noNaN: true }), (exact, atLeast, shape) => {
        const here = bounded({ exact, atLeast }, { shape, confidence: 0.9 });
        const inPsi = (x: number) => x / 6.894757293168361;
        const there = bounded({ exact: exact.map(inPsi), atLeast: atLeast.map(inPsi) }, { shape, confidence: 0.9 });
        expect((there.scaleLower * 6.894757293168361) / here.scaleLower).toBeCloseTo(1, 10);
        expect(bounded({ exact, atLeast }, { shape, confidence: 0.95 }).scaleLower).toBeLessThan(here.scaleLower);
        expect(here.scaleLower).toBeLessThan(here.scale as number);
      }),
      { numRuns: 60 },
    );
  });

  // Seeded simulation; three standard errors below what is stated.
  it('keeps its confidence where survivors left at a strength set beforehand', () => {
    const { weibull } = seededGenerator(17);
    const replicates = 4000;
    let held = 0;
    for (let replicate = 0; replicate < replicates; replicate++) {
      const sample = { exact: [] as number[], atLeast: [] as number[] };
      for (let specimen = 0; specimen < 8; specimen++) {
        const strength = weibull({ shape: 10, scale: 100 });
        if (strength < 95) sample.exact.push(strength);
        else sample.atLeast.push(95);
      }
      if (bounded(sample, { shape: 10, confidence: 0.9 }).scaleLower <= 100) held++;
    }
    expect(held / replicates).toBeGreaterThan(0.9 - 3 * Math.sqrt((0.9 * 0.1) / replicates));
  });
});

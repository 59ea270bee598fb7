import { describe, expect, it } from 'vitest';
import { lowerToleranceBound } from './lower-tolerance-bound.js';
import { toleranceConfidence } from './tolerance-confidence.js';

describe('toleranceConfidence', () => {
  const complete = { exact: [41.2, 44.8, 46.1, 47.9, 50.3] };
  const ended = { exact: [38, 41, 44], atLeast: [44, 44] };
  const survivors = { exact: [38, 41, 44], atLeast: [40, 45] };

  it.each([
    { sample: complete, exact: true },
    { sample: ended, exact: true },
    { sample: survivors, exact: false },
  ])('turns the bound round', ({ sample, exact }) => {
    for (const distribution of ['weibull', 'normal', 'lognormal'] as const) {
      const bound = lowerToleranceBound({ sample, coverage: 0.9, confidence: 0.93, distribution, replicates: 500 });
      if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
      const question = { coverage: 0.9, strength: bound.bound, distribution };
      expect(toleranceConfidence(sample, question)).toMatchObject({ confidence: expect.closeTo(0.93, 7), exact });
      expect(toleranceConfidence(sample, { ...question, coarse: true })).toMatchObject({
        confidence: expect.closeTo(0.93, 3),
      });
    }
  });

  it('says why nothing can be said', () => {
    const question = { coverage: 0.9, strength: 40, distribution: 'normal' } as const;
    expect(toleranceConfidence({ atLeast: [42, 43] }, question)).toMatchObject({ notEvaluated: {} });
    expect(toleranceConfidence({ exact: [42], atLeast: [43] }, question)).toMatchObject({
      notEvaluated: { because: expect.stringContaining('fewer than two strengths') },
    });
  });
});

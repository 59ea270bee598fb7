import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalToleranceConfidence, normalToleranceFactor } from './normal-tolerance-factor.js';

const questions = {
  n: fc.oneof(fc.integer({ min: 2, max: 60 }), fc.constantFrom(300, 1001, 10_000)),
  coverage: fc.double({ min: 0.5, max: 0.9999, noNaN: true }),
  confidence: fc.double({ min: 0.01, max: 0.999, noNaN: true }),
};

describe('normalToleranceFactor', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.6.3: 43 wafers, 90 % with 99 % confidence.
  it('gives the factor of the NIST handbook', () => {
    expect(normalToleranceFactor({ n: 43, coverage: 0.9, confidence: 0.99 }).k.toFixed(4)).toBe('1.8740');
  });

  // Closed form: at coverage one half the factor is a Student t quantile, here qt(0.95, 4) / sqrt(5) of R 4.2.2.
  it('is a Student t quantile at coverage one half', () => {
    expect(normalToleranceFactor({ n: 5, coverage: 0.5, confidence: 0.95 }).k).toBeCloseTo(0.953390866, 9);
    expect(normalToleranceFactor({ n: 5, coverage: 0.5, confidence: 0.5 }).k).toBeCloseTo(0, 12);
  });

  // SciPy 1.17: brentq on a 60-point Gauss-Legendre integral of chi2.sf over the error of the mean.
  it.each([
    { n: 3, coverage: 0.99, confidence: 0.99, k: 28.5856951689 },
    { n: 5000, coverage: 0.9, confidence: 0.05, k: 1.61842757788 },
    { n: 10_000, coverage: 0.5, confidence: 0.01, k: 0.663598751029 },
  ])('gives $k on two sides for n = $n, $coverage with $confidence', ({ k, ...question }) => {
    expect(normalToleranceFactor({ ...question, sides: 2 }).k / k).toBeCloseTo(1, 10);
  });

  it('is undone by its inverse, on one side and on two', () => {
    fc.assert(
      fc.property(fc.record({ ...questions, sides: fc.constantFrom<(1 | 2)[]>(1, 2) }), (question) => {
        const { k } = normalToleranceFactor(question);
        const { confidence } = normalToleranceConfidence({ ...question, k });
        expect(Math.abs(confidence - question.confidence)).toBeLessThan(1e-10);
      }),
      { numRuns: 60 },
    );
  });

  it('grows with coverage and with confidence', () => {
    fc.assert(
      fc.property(fc.record(questions), ({ n, coverage, confidence }) => {
        const { k } = normalToleranceFactor({ n, coverage, confidence });
        const surer = normalToleranceFactor({ n, coverage, confidence: confidence + (1 - confidence) / 10 });
        const more = normalToleranceFactor({ n, coverage: coverage + (1 - coverage) / 10, confidence });
        expect(surer.k).toBeGreaterThan(k);
        expect(more.k).toBeGreaterThan(k);
      }),
      { numRuns: 60 },
    );
  });

  it('refuses one value and a percentage', () => {
    expect(() => normalToleranceFactor({ n: 1, coverage: 0.9, confidence: 0.95 })).toThrow('at least 2; got 1');
    expect(() => normalToleranceFactor({ n: 5, coverage: 90, confidence: 0.95 })).toThrow('got 90');
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hypergeometricCdf } from '../distributions/hypergeometric.js';
import { demonstrationSize } from './demonstration-size.js';
import { fewestBad } from './lot-claim.js';
import { zeroFailureSize } from './zero-failure-size.js';

function sizeOf(answer: ReturnType<typeof demonstrationSize>): number {
  if ('notEvaluated' in answer) throw new Error(answer.notEvaluated.because);
  return answer.n;
}

describe('zeroFailureSize', () => {
  // n = ln(1 - confidence) / ln(reliability), rounded up; 22, 29, 59 and 299 are the sizes every handbook quotes
  // (for the weakest of n as a bound: MIL-HDBK-17-1F, section 8.3.4.5, from memory).
  it.each([
    { reliability: 0.9, confidence: 0.9, n: 22 },
    { reliability: 0.9, confidence: 0.95, n: 29 },
    { reliability: 0.95, confidence: 0.95, n: 59 },
    { reliability: 0.99, confidence: 0.95, n: 299 },
  ])('needs $n specimens for $reliability with $confidence', ({ reliability, confidence, n }) => {
    expect(sizeOf(zeroFailureSize({ reliability, confidence }))).toBe(n);
  });

  it('counts an exact tie as reached', () => {
    expect(sizeOf(zeroFailureSize({ reliability: 0.5, confidence: 0.75 }))).toBe(2);
    expect(sizeOf(zeroFailureSize({ reliability: 0.9, confidence: 0.19 }))).toBe(2);
  });

  it('needs fewer specimens of a small lot, and never more than the lot has', () => {
    expect(sizeOf(zeroFailureSize({ reliability: 0.9, confidence: 0.95, lotSize: 50 }))).toBeLessThan(29);
    // One bad unit of 20 escapes 19 drawn with a chance of 1 in 20, an exact tie.
    expect(sizeOf(zeroFailureSize({ reliability: 0.99, confidence: 0.95, lotSize: 20 }))).toBe(19);
    expect(sizeOf(zeroFailureSize({ reliability: 0.99, confidence: 0.96, lotSize: 20 }))).toBe(20);
    expect(sizeOf(zeroFailureSize({ reliability: 0.9, confidence: 0.95, lotSize: 1_000_000 }))).toBe(29);
  });
});

describe('demonstrationSize', () => {
  it('is the smallest n that is enough, for a process and for a lot', () => {
    const goals = fc.record({
      reliability: fc.double({ min: 0.5, max: 0.99, noNaN: true }),
      confidence: fc.double({ min: 0.5, max: 0.99, noNaN: true }),
      allowedFailures: fc.integer({ min: 0, max: 4 }),
      lotSize: fc.integer({ min: 5, max: 200 }),
    });
    fc.assert(
      fc.property(goals, (goal) => {
        const answer = demonstrationSize(goal);
        const marked = fewestBad({ share: goal.reliability, lotSize: goal.lotSize });
        const risk = (n: number) => hypergeometricCdf(goal.allowedFailures, { size: goal.lotSize, marked, drawn: n });
        if ('notEvaluated' in answer) {
          expect(risk(goal.lotSize)).toBeGreaterThan(1 - goal.confidence);
          return;
        }
        expect(risk(answer.n)).toBeLessThanOrEqual((1 - goal.confidence) * (1 + 1e-11));
        if (answer.n > goal.allowedFailures + 1) expect(risk(answer.n - 1)).toBeGreaterThan(1 - goal.confidence);
        if (goal.allowedFailures === 0)
          expect(answer.n).toBeLessThanOrEqual(sizeOf(demonstrationSize({ ...goal, lotSize: undefined })));
      }),
      { numRuns: 200 },
    );
  });

  it('says so when even the whole lot is not enough', () => {
    expect(demonstrationSize({ reliability: 0.9, confidence: 0.95, allowedFailures: 2, lotSize: 10 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('every unit of the lot of 10') },
    });
  });

  it('says so when no number of specimens is enough', () => {
    expect(demonstrationSize({ reliability: 1 - 1e-15, confidence: 0.95, allowedFailures: 0 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('not even') },
    });
  });
});

describe('fewestBad', () => {
  it('is not moved by the hair that floating point adds', () => {
    // 0.07 * 100 is 7.000000000000001.
    expect(fewestBad({ share: 0.07, lotSize: 100 })).toBe(94);
    expect(fewestBad({ share: 0.9, lotSize: 30 })).toBe(4);
    expect(fewestBad({ share: 0.91, lotSize: 30 })).toBe(3);
  });
});

import { describe, expect, it } from 'vitest';
import { weibullToleranceFactor } from './weibull-tolerance-factor.js';

function factorOf(question: Parameters<typeof weibullToleranceFactor>[0]) {
  const found = weibullToleranceFactor(question);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('weibullToleranceFactor', () => {
  const B = { n: 5, coverage: 0.9, confidence: 0.95, replicates: 1000 };

  it('is the same for the same seed, and another by chance only for the next', () => {
    const here = factorOf({ ...B, seed: 7 });
    const there = factorOf({ ...B, seed: 8 });
    expect(factorOf({ ...B, seed: 7 })).toEqual(here);
    expect(there.v).not.toBe(here.v);
    expect(Math.abs(there.v - here.v)).toBeLessThan(4 * Math.hypot(here.simulationError, there.simulationError));
  });

  it('rises with coverage and confidence, and where the test ends earlier', () => {
    const { v } = factorOf(B);
    expect(factorOf({ ...B, confidence: 0.99 }).v).toBeGreaterThan(v);
    expect(factorOf({ ...B, coverage: 0.99 }).v).toBeGreaterThan(v);
    expect(factorOf({ ...B, failures: 3 }).v).toBeGreaterThan(v);
  });

  it('lies on the other side where little confidence is asked for', () => {
    expect(factorOf({ ...B, confidence: 0.05 }).v).toBeLessThan(0);
  });

  it('says why one failure is too few, and refuses more than there are specimens', () => {
    expect(weibullToleranceFactor({ ...B, failures: 1 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('one failure') },
    });
    expect(() => weibullToleranceFactor({ ...B, failures: 6 })).toThrow('6 failures among 5');
  });
});

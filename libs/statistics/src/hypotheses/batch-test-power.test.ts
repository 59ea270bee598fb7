import { isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { type BatchTestPower, batchTestPower } from './batch-test-power.js';

function plainly(found: ReturnType<typeof batchTestPower>): BatchTestPower {
  if (isNotEvaluated(found)) throw new Error(found.notEvaluated.because);
  return found;
}

describe('the power of the batch test', () => {
  it('is its level where nothing is shifted', () => {
    // Scholz and Stephens (1987), table 2: critical values at 0.05; groups of 8 are near to it.
    const { probability, simulationError } = plainly(batchTestPower([8, 8, 8], 0, 0.05, { replicates: 4000 }));
    expect(Math.abs(probability - 0.05)).toBeLessThan(4 * simulationError + 0.005);
  });

  it('grows with the shift and with the number of specimens', () => {
    const at = (n: number, shift: number) => plainly(batchTestPower([n, n], shift, 0.05)).probability;
    expect(at(5, 1)).toBeLessThan(at(5, 3));
    expect(at(5, 2)).toBeLessThan(at(20, 2));
    // Mann-Whitney and Anderson-Darling are near to the t test for normal values: 20 and 20 one apart, power 0.87 by t.
    expect(at(20, 1)).toBeGreaterThan(0.75);
    expect(at(20, 1)).toBeLessThan(0.9);
  });

  it('needs two groups of two', () => {
    expect(batchTestPower([5], 1, 0.05)).toHaveProperty('notEvaluated');
  });
});

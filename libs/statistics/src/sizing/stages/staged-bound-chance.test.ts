import { describe, expect, it } from 'vitest';
import { operatingCharacteristic } from '../operating-characteristic.js';
import { stageConfidence } from './stage-confidence.js';
import { stagedBoundChance } from './staged-bound-chance.js';

const claim = { coverage: 0.9, confidence: 0.95 };
const shares = [0.001, 0.01, 0.1];

describe('stagedBoundChance', () => {
  // A schedule of one look is the single plan, whose chance is known without simulating it (noncentral t; Weibull by
  // conditioning).
  it.each(['normal', 'weibull'] as const)('is, with one look, the chance of the single %s bound', (distribution) => {
    const staged = stagedBoundChance(
      { stages: [8], coverage: 0.9, perStageConfidence: 0.95, distribution, replicates: 2000 },
      shares,
    );
    const single = operatingCharacteristic({ kind: 'tolerance-bound', n: 8, distribution, ...claim }, shares, {
      replicates: 300,
    });
    if ('notEvaluated' in single) throw new Error(single.notEvaluated.because);
    staged.acceptance.forEach((chance, index) => {
      expect(Math.abs(chance - (single.acceptance[index] as number))).toBeLessThan(0.03);
    });
    expect(staged.expected).toEqual([8, 8, 8]);
  });

  // Looks at 5, 8, 11 and 14 specimens with an unadjusted bound err far more often than 1 in 20. `stageConfidence` finds how
  // often by another way, from the levels at which bounds lie on the truth.
  it('accepts a population at the limit as often as the schedule keeps, and breaks fewer of a good one', () => {
    const stages = [5, 8, 11, 14];
    const kept = stageConfidence({ stages, ...claim, distribution: 'normal' });
    const at = (perStageConfidence: number) =>
      stagedBoundChance(
        { stages, coverage: 0.9, perStageConfidence, distribution: 'normal', replicates: 4000 },
        [1e-4, 0.1],
      );
    const plain = at(0.95);
    const adjusted = at(kept.perStageConfidence);
    expect(plain.acceptance[1]).toBeGreaterThan(0.1);
    expect(Math.abs((plain.acceptance[1] as number) - (1 - kept.unadjusted))).toBeLessThan(0.02);
    expect(adjusted.acceptance[1]).toBeLessThan(0.065);
    expect(adjusted.expected[0]).toBeLessThan(adjusted.expected[1] as number);
    expect(adjusted.expected[1]).toBeLessThanOrEqual(14);
  });

  // By hand: 22 then 23 more at 90/90. The rank is 1 at 22 (0.9^22 = 0.098), 2 at 45 (38 would do: Somerville 1958, from memory), so it accepts where none of 22 is below, or some are and no more than one of 45.
  it('is exact for order statistics', () => {
    const share = 0.02;
    const none = (1 - share) ** 22;
    const oneThenNone = 22 * share * (1 - share) ** 21 * (1 - share) ** 23;
    const { acceptance, expected, simulationError } = stagedBoundChance(
      { stages: [22, 45], coverage: 0.9, perStageConfidence: 0.9, distribution: 'distribution-free' },
      [share],
    );
    expect(acceptance[0]).toBeCloseTo(none + oneThenNone, 12);
    expect(expected[0]).toBeCloseTo(22 + 23 * (1 - none), 12);
    expect(simulationError).toEqual([0]);
  });
});

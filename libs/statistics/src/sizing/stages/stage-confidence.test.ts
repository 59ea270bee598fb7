import { describe, expect, it } from 'vitest';
import { lowerToleranceBound } from '../../bounds/lower-tolerance-bound.js';
import { normalToleranceFactor } from '../../bounds/normal-tolerance-factor.js';
import { orderStatisticRank } from '../../bounds/order-statistic.js';
import { normalQuantile } from '../../distributions/normal.js';
import { seededGenerator } from '../../random/generator.js';
import { normalLooks, weibullLooks } from './look-levels.js';
import { chanceOrderStatisticsHold } from './order-statistic-stages.js';
import { stageConfidence } from './stage-confidence.js';

const schedule = { stages: [5, 8, 11, 14], coverage: 0.9, confidence: 0.95 } as const;

describe('stageConfidence', () => {
  // NumPy 2.4, 200 000 schedules with factors from SciPy 1.17's noncentral t: without adjustment
  // the schedule keeps 0.88145 (standard error 0.0007), and 0.95 with 0.98135 at each look (0.9810 to 0.9818 for +-0.001).
  it('finds what looking four times at a 95 % normal bound costs, and what keeps it', () => {
    const found = stageConfidence({ ...schedule, distribution: 'normal' });
    expect(Math.abs(found.unadjusted - 0.88145)).toBeLessThan(4 * found.simulationError);
    // Three standard errors to the safe side, of 10 000 schedules: never below, and by no more than that above.
    expect(found.overall).toBeGreaterThan(0.95);
    expect(found.overall).toBeLessThan(0.95 + 6 * found.simulationError);
    expect(found.perStageConfidence).toBeGreaterThan(0.98135);
    expect(found.perStageConfidence).toBeLessThan(0.98135 + 0.006);
  });

  it('asks no more than the stated confidence of a single look', () => {
    for (const distribution of ['normal', 'weibull'] as const)
      expect(stageConfidence({ ...schedule, stages: [8], distribution })).toMatchObject({
        perStageConfidence: 0.95,
        overall: 0.95,
        simulationError: 0,
      });
  });

  it('keeps the confidence of a Weibull schedule', () => {
    const found = stageConfidence({ ...schedule, stages: [5, 10], distribution: 'weibull', replicates: 2000 });
    expect(found.perStageConfidence).toBeGreaterThan(0.95);
    expect(found.perStageConfidence).toBeLessThan(0.98);
    expect(found.unadjusted).toBeLessThan(0.95);
    expect(found.overall).toBeGreaterThan(0.95 - found.simulationError);
  });

  it('is the same for the same seed', () => {
    const question = { ...schedule, distribution: 'lognormal', replicates: 1000, seed: 4 } as const;
    expect(stageConfidence(question)).toEqual(stageConfidence(question));
  });

  it('refuses looks that do not grow', () => {
    expect(() => stageConfidence({ ...schedule, stages: [8, 8], distribution: 'normal' })).toThrow('more specimens');
    expect(() => stageConfidence({ ...schedule, stages: [1, 8], distribution: 'normal' })).toThrow('at least 2');
  });
});

describe('the level of a look', () => {
  it('is the confidence at which the bound lies on the truth', () => {
    const { uniform, normal } = seededGenerator(6);
    const values = Array.from({ length: 6 }, normal);
    const [level] = normalLooks([6], 0.9)({ ...seededGenerator(6), normal: replaying(values) });
    const mean = values.reduce((sum, x) => sum + x, 0) / 6;
    const sd = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 5);
    const { k } = normalToleranceFactor({ n: 6, coverage: 0.9, confidence: level as number });
    expect(mean - k * sd).toBeCloseTo(-normalQuantile(0.9), 9);

    const shares = Array.from({ length: 6 }, uniform);
    const [weibull] = weibullLooks([6], 0.9)({ ...seededGenerator(6), uniform: replaying(shares) });
    const sample = { exact: shares.map((share) => -Math.log1p(-share)) };
    const bound = lowerToleranceBound({
      sample,
      coverage: 0.9,
      confidence: weibull as number,
      distribution: 'weibull',
    });
    if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
    expect(bound.bound / -Math.log(0.9)).toBeCloseTo(1, 4);
  });
});

describe('looks at order statistics', () => {
  it('are what every order of weak and strong specimens, counted, makes them', () => {
    const [stages, coverage, confidence] = [[4, 7, 9], 0.6, 0.8];
    const ranks = stages.map((n) => {
      const found = orderStatisticRank({ n, coverage, confidence });
      return 'notEvaluated' in found ? 0 : found.rank;
    });
    let holds = 0;
    for (let order = 0; order < 2 ** 9; order++) {
      const weak = Array.from({ length: 9 }, (_, index) => (order >> index) & 1);
      const count = (n: number) => weak.slice(0, n).reduce((sum, one) => sum + one, 0);
      const chance = 0.4 ** count(9) * 0.6 ** (9 - count(9));
      if (stages.every((n, look) => count(n) >= (ranks[look] as number))) holds += chance;
    }
    expect(chanceOrderStatisticsHold(stages, coverage, confidence)).toBeCloseTo(holds, 12);
  });

  it('keep the stated confidence exactly or more, at a per-stage confidence no larger than sharing the risk out', () => {
    for (const stages of [
      [30, 60],
      [29, 46, 61],
      [20, 40, 80, 160],
    ]) {
      const found = stageConfidence({ ...schedule, stages, distribution: 'distribution-free' });
      expect(found.overall).toBeGreaterThanOrEqual(0.95 - 1e-9);
      expect(found.perStageConfidence).toBeLessThanOrEqual(1 - 0.05 / stages.length + 1e-9);
      expect(found.unadjusted).toBeLessThanOrEqual(found.overall);
      expect(found.simulationError).toBe(0);
    }
  });
});

function replaying(values: readonly number[]): () => number {
  let next = 0;
  return () => values[next++] as number;
}

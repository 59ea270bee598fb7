import { describe, expect, it } from 'vitest';
import { lowerToleranceBound } from '../bounds/lower-tolerance-bound.js';
import { weibullQuantile } from '../distributions/weibull.js';
import { seededGenerator } from '../random/generator.js';
import { weibullShapeFor } from './margin-for-share.js';
import { operatingCharacteristic } from './operating-characteristic.js';
import { sizeFor } from './sample-size.js';
import { smallestThat } from './smallest.js';
import { weibullDemonstrationLoad, weibullDemonstrationSize } from './weibull-demonstration-size.js';

const answered = <T extends object>(answer: T): Exclude<T, { notEvaluated: unknown }> => {
  if ('notEvaluated' in answer) throw new Error(JSON.stringify(answer));
  return answer as Exclude<T, { notEvaluated: unknown }>;
};

describe('smallestThat', () => {
  it('finds the first that serves, and says so where none does', () => {
    for (const first of [2, 3, 4, 7, 64, 1000, 999_999]) expect(smallestThat((n) => n >= first, 2)).toBe(first);
    expect(smallestThat(() => false, 2, 500)).toBeUndefined();
    expect(smallestThat((n) => n >= 500, 2, 500)).toBe(500);
  });
});

describe('operatingCharacteristic', () => {
  const claim = { coverage: 0.9, confidence: 0.95 };

  it('falls as more lies below the limit, from certain acceptance to none', () => {
    const criteria = [
      { kind: 'attribute', n: 22, c: 1 },
      { kind: 'variables', n: 8, k: 2.5 },
      { kind: 'tolerance-bound', n: 8, distribution: 'normal', ...claim },
      { kind: 'tolerance-bound', n: 6, distribution: 'weibull', ...claim },
      { kind: 'tolerance-bound', n: 46, distribution: 'distribution-free', ...claim },
    ] as const;
    for (const criterion of criteria) {
      const simulation = 'distribution' in criterion && criterion.distribution === 'weibull' ? { replicates: 50 } : {};
      const { acceptance } = answered(
        operatingCharacteristic(criterion, [0, 0.001, 0.01, 0.05, 0.2, 0.5, 1], simulation),
      );
      expect(acceptance[0]).toBe(1);
      expect(acceptance.at(-1)).toBe(0);
      for (let index = 1; index < acceptance.length; index++)
        expect(acceptance[index]).toBeLessThanOrEqual(acceptance[index - 1] as number);
    }
  });

  it('accepts a population at the very edge of the claim with the risk of the claim, and no more', () => {
    const at = (distribution: 'weibull' | 'distribution-free', n: number) =>
      answered(
        operatingCharacteristic({ kind: 'tolerance-bound', n, distribution, ...claim }, [0.1], { replicates: 20 }),
      );
    expect(at('weibull', 7)).toMatchObject({ acceptance: [expect.closeTo(0.05, 9)], seed: 1, replicates: 20 });
    expect(at('distribution-free', 40).acceptance[0]).toBeLessThanOrEqual(0.05);
  });

  it('is what happens to simulated Weibull lots', () => {
    const generator = seededGenerator(12);
    const limit = weibullQuantile(0.02, { shape: 9, scale: 100 });
    const lots = 800;
    let accepted = 0;
    for (let lot = 0; lot < lots; lot++) {
      const exact = Array.from({ length: 8 }, () => generator.weibull({ shape: 9, scale: 100 }));
      const found = answered(lowerToleranceBound({ sample: { exact }, distribution: 'weibull', ...claim }));
      if (found.bound >= limit) accepted++;
    }
    const { acceptance, simulationError } = answered(
      operatingCharacteristic({ kind: 'tolerance-bound', n: 8, distribution: 'weibull', ...claim }, [0.02], {
        seed: 3,
      }),
    );
    const chance = acceptance[0] as number;
    expect(Math.abs(accepted / lots - chance)).toBeLessThan(4 * Math.sqrt((chance * (1 - chance)) / lots));
    expect(simulationError?.[0]).toBeLessThan(0.01);
  });

  it('says why there is no bound from too few', () => {
    expect(
      operatingCharacteristic({ kind: 'tolerance-bound', n: 1, distribution: 'weibull', ...claim }, [0.1]),
    ).toMatchObject({ notEvaluated: {} });
    expect(
      operatingCharacteristic({ kind: 'tolerance-bound', n: 20, distribution: 'distribution-free', ...claim }, [0.1]),
    ).toMatchObject({ notEvaluated: { possibleIf: 'at least 29 specimens are tested' } });
  });

  it('refuses a share that is no whole number of units of the lot', () => {
    expect(() => operatingCharacteristic({ kind: 'attribute', n: 5, c: 0, lotSize: 30 }, [0.05])).toThrow(
      'no whole number of units',
    );
  });
});

describe('sizeFor', () => {
  it('gives the smallest number that serves', () => {
    const goal = { kind: 'one-sample', shift: 1, sd: 1.4, alpha: 0.05, power: 0.9, sides: 2 } as const;
    const { n, achieved } = answered(sizeFor(goal));
    expect((achieved as { power: number }).power).toBeGreaterThanOrEqual(0.9);
    const fewer = answered(sizeFor({ ...goal, power: (achieved as { power: number }).power - 1e-9 }));
    expect(fewer.n).toBe(n);
    expect(answered(sizeFor({ ...goal, power: (achieved as { power: number }).power + 1e-9 })).n).toBe(n + 1);
  });

  it('keeps both risks of a plan, which one specimen fewer would not', () => {
    const goal = { acceptable: 0.01, producerRisk: 0.05, rejectable: 0.08, consumerRisk: 0.1 };
    for (const kind of ['variables-plan', 'attribute-plan'] as const) {
      const { n, k, c, achieved } = answered(sizeFor({ kind, ...goal }));
      const { producerRisk, consumerRisk } = achieved as { producerRisk: number; consumerRisk: number };
      expect(producerRisk).toBeLessThanOrEqual(goal.producerRisk);
      expect(consumerRisk).toBeLessThanOrEqual(goal.consumerRisk + 1e-9);
      const criterion = kind === 'variables-plan' ? { kind: 'variables', n, k } : { kind: 'attribute', n, c };
      const { acceptance } = answered(operatingCharacteristic(criterion as never, [0.01, 0.08]));
      expect(acceptance[0]).toBeCloseTo(1 - producerRisk, 10);
      expect(acceptance[1]).toBeCloseTo(consumerRisk, 10);
    }
  });

  it('is the size at which the operating characteristic of the bound reaches the power, for Weibull too', () => {
    for (const distribution of ['normal', 'weibull'] as const) {
      const goal = {
        kind: 'tolerance-bound',
        coverage: 0.9,
        confidence: 0.9,
        distribution,
        meanOverLimit: 1.3,
        cv: 0.08,
        power: 0.8,
      } as const;
      const simulation = distribution === 'weibull' ? { replicates: 200 } : {};
      const { n, fractionBelow, achieved } = answered(sizeFor(goal, simulation));
      const power = (size: number) =>
        answered(
          operatingCharacteristic(
            { kind: 'tolerance-bound', n: size, coverage: 0.9, confidence: 0.9, distribution },
            [fractionBelow as number],
            simulation,
          ),
        ).acceptance[0];
      expect(power(n)).toBeCloseTo((achieved as { power: number }).power, 9);
      expect(power(n)).toBeGreaterThanOrEqual(0.8);
      expect(power(n - 1)).toBeLessThan(0.8);
    }
  });

  it('knows the Weibull shape of a scatter', () => {
    // cv of shape 1 (exponential) is 1; of shape 2 (Rayleigh) sqrt(4 / pi - 1).
    expect(weibullShapeFor(1)).toBeCloseTo(1, 9);
    expect(weibullShapeFor(Math.sqrt(4 / Math.PI - 1))).toBeCloseTo(2, 9);
    for (const cv of [1e-4, 0.05, 10]) expect(weibullShapeFor(cv)).toBeGreaterThan(0);
  });

  it.each([
    ['distribution-free', 1.3, 'do not say what share'],
    ['normal', 1.1, 'as much as the claim denies'],
    ['weibull', 0.9, 'as much as the claim denies'],
  ] as const)(
    'says why no number of specimens serves: %s, mean %d of the limit',
    (distribution, meanOverLimit, because) => {
      const goal = { kind: 'tolerance-bound', coverage: 0.9, confidence: 0.9, cv: 0.08, power: 0.8 } as const;
      expect(sizeFor({ ...goal, distribution, meanOverLimit })).toMatchObject({
        notEvaluated: { because: expect.stringContaining(because) },
      });
    },
  );

  it('says so where not even a million would be enough', () => {
    expect(sizeFor({ kind: 'one-sample', shift: 1e-6, sd: 1, alpha: 0.05, power: 0.9, sides: 1 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining('1000000') },
    });
  });
});

describe('weibullDemonstrationSize', () => {
  const goal = { shape: 8, reliability: 0.95, confidence: 0.9 };

  it('asks for the load at which that many specimens just serve', () => {
    for (const allowedFailures of [0, 1, 3])
      for (const n of [5, 11, 40]) {
        const { loadRatio } = answered(weibullDemonstrationLoad({ ...goal, n, allowedFailures }));
        expect(
          answered(weibullDemonstrationSize({ ...goal, loadRatio: loadRatio * 1.000001, allowedFailures })).n,
        ).toBe(n);
        expect(
          answered(weibullDemonstrationSize({ ...goal, loadRatio: loadRatio * 0.999999, allowedFailures })).n,
        ).toBe(n + 1);
      }
  });

  it('needs as many as any demonstration at the load of the claim', () => {
    expect(answered(weibullDemonstrationSize({ ...goal, loadRatio: 1 })).n).toBe(45);
  });

  it('says why a load is too low, and how many specimens are needed at least', () => {
    expect(weibullDemonstrationSize({ ...goal, loadRatio: 0.001 })).toMatchObject({ notEvaluated: {} });
    expect(weibullDemonstrationLoad({ ...goal, n: 2, allowedFailures: 2 })).toMatchObject({
      notEvaluated: { possibleIf: 'at least 3 specimens are tested' },
    });
    expect(weibullDemonstrationSize({ ...goal, loadRatio: 1000, allowedFailures: 2 })).toMatchObject({ n: 3 });
  });
});

import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { describe, expect, it } from 'vitest';
import { noncentralT } from '../../distributions/noncentral-t.js';
import { seededGenerator } from '../../random/generator.js';
import { predictionBound } from '../prediction-bound.js';
import {
  calibrateLots,
  chanceOfScore,
  criticalScore,
  type LotsCalibrationQuestion,
  smallestShift,
} from './calibration.js';
import { drawEnded, endsFor } from './draws.js';
import { futureSpread, lotsSummary, offAtScore, scatterWeights, scoreOf } from './statistic.js';

const POOLED: LotsCalibrationQuestion = {
  sizes: [22],
  items: 1,
  of: 'each',
  family: 'normal',
  survivors: 0,
  side: 'either',
  rigs: false,
  seed: 3,
};

/** How many standard deviations from the mean the bound lies, for a reference of these sizes with variance 1 within. */
function factorOf(question: LotsCalibrationQuestion, level: number): number {
  const critical = criticalScore(calibrateLots(question), level) as number;
  return offAtScore(critical, futureSpread(scatterWeights(question), { centre: 0, between: 1, within: 1 }, 0));
}

describe('the spread of a future unit', () => {
  it('is that of the one-way random model, each lot counting once', () => {
    // By hand: lots 10, 12 | 14, 14, 17 | 9: means 11, 15, 9; S2 = 28/3, squares within 2 + 6, 3 degrees of freedom.
    const sizes = [2, 3, 1];
    const summary = lotsSummary(Float64Array.from([10, 12, 14, 14, 17, 9]), sizes);
    expect(summary.centre).toBeCloseTo(35 / 3, 12);
    expect(summary.between).toBeCloseTo(28 / 3, 12);
    expect(summary.within).toBeCloseTo(8 / 3, 12);
    // (1 + 1/3) 28/3 + (1 - (1/2 + 1/3 + 1)/3) 8/3
    const weights = scatterWeights({ sizes, items: 1, of: 'each' });
    const byLots = (4 / 3) * (28 / 3);
    const byUnits = (1 - 11 / 18) * (8 / 3);
    const { variance, degrees } = futureSpread(weights, summary, 0);
    expect(variance).toBeCloseTo(byLots + byUnits, 12);
    expect(degrees).toBeCloseTo((byLots + byUnits) ** 2 / (byLots ** 2 / 2 + byUnits ** 2 / 3), 10);
    expect(futureSpread(weights, summary, 5).variance).toBeCloseTo(byLots + byUnits + 5, 12);
  });

  it('is estimated without bias, whatever share of the variance lies between lots', () => {
    const chance = seededGenerator(8);
    const sizes = [4, 3, 1];
    const weights = scatterWeights({ sizes, items: 1, of: 'each' });
    for (const share of [0, 0.5, 0.9]) {
      let [estimated, seen] = [0, 0];
      const trials = 4000;
      for (let trial = 0; trial < trials; trial++) {
        const unit = (lot: number) => Math.sqrt(share) * lot + Math.sqrt(1 - share) * chance.normal();
        const values = sizes.flatMap((size) => {
          const lot = chance.normal();
          return Array.from({ length: size }, () => unit(lot));
        });
        const summary = lotsSummary(Float64Array.from(values), sizes);
        estimated += futureSpread(weights, summary, 0).variance / trials;
        seen += (unit(chance.normal()) - summary.centre) ** 2 / trials;
      }
      // Both have a standard error of about 2 %.
      expect(Math.abs(estimated / seen - 1)).toBeLessThan(0.1);
    }
  });

  it('has a score whose tail is about that of Student t, and which is undone', () => {
    for (const [t, degrees] of [
      [2.5, 4],
      [6, 2.3],
      [-1, 30],
    ] as const) {
      const spread = { variance: 4, degrees };
      expect(offAtScore(scoreOf(2 * t, spread), spread)).toBeCloseTo(2 * t, 10);
    }
    // Student's t(0.975; 10) = 2.228 is near the normal 1.960; Wallace (1959) is good to 0.002 there.
    expect(scoreOf(2.228138852, { variance: 1, degrees: 10 })).toBeCloseTo(1.96, 2);
    expect(scoreOf(1, { variance: 0, degrees: 3 })).toBe(Number.POSITIVE_INFINITY);
    expect(scoreOf(0, { variance: 0, degrees: 3 })).toBe(0);
  });
});

describe('calibrateLots', () => {
  it('comes to the published interval for one population', () => {
    // Montgomery and Runger, Applied Statistics and Probability for Engineers, section 8-7 (alloy adhesion): n = 22, mean
    // 13.71, s = 3.55, 95 % prediction interval 6.16 to 21.26. Values from memory.
    const factor = factorOf(POOLED, 0.05);
    expect(Math.abs(13.71 - 3.55 * factor - 6.16)).toBeLessThan(0.15);
    expect(Math.abs(13.71 + 3.55 * factor - 21.26)).toBeLessThan(0.15);
  });

  it.each([
    [1, 'normal'],
    [4, 'normal'],
  ] as const)('comes to the exact bound for the smallest of %d future units of one population', (items) => {
    const question = { ...POOLED, sizes: [10], items, side: 'below' as const };
    const exact = predictionBound({
      basis: { n: 10, mean: 0, sd: 1 },
      distribution: 'normal',
      m: items,
      of: 'all',
      confidence: 0.95,
    });
    expect(Math.abs(factorOf(question, 0.05) + (exact as { bound: number }).bound)).toBeLessThan(0.05);
  });

  it('comes to the exact bound for the mean of future units of one population', () => {
    const question = { ...POOLED, sizes: [10], items: 3, of: 'mean' as const, side: 'above' as const };
    const exact = -tQuantile(0.05, 9) * Math.sqrt(1 / 3 + 1 / 10);
    expect(Math.abs(factorOf(question, 0.05) - exact)).toBeLessThan(0.03);
  });

  it('takes lots of one unit each for single values: Student t with k - 1 degrees of freedom', () => {
    const question = { ...POOLED, sizes: [1, 1, 1, 1], side: 'below' as const };
    const exact = -tQuantile(0.05, 3) * Math.sqrt(1 + 1 / 4);
    expect(Math.abs(factorOf(question, 0.05) / exact - 1)).toBeLessThan(0.06);
  });

  it('keeps the level at every share of variance, to the error of the simulation, and at the worst of them just so', () => {
    const question = { ...POOLED, sizes: [4, 3, 3], side: 'below' as const };
    const calibration = calibrateLots(question);
    const critical = criticalScore(calibration, 0.05) as number;
    const { replicates } = calibration;
    const beyond = calibration.cells.map(
      ({ scores }) => scores.filter((score) => score > critical).length / replicates,
    );
    expect(Math.max(...beyond)).toBeLessThanOrEqual(0.05);
    // Two standard errors of the simulation are left to the safe side.
    expect(Math.max(...beyond)).toBeGreaterThan(0.05 - 2.1 * Math.sqrt((0.05 * 0.95) / replicates));
    const { p } = chanceOfScore(calibration, critical + 1e-9);
    expect(p).toBeLessThanOrEqual(0.05);
    expect(chanceOfScore(calibration, critical).p).toBeGreaterThan(0.05 - 1e-9);
  });

  it('is not taken for what it is at another level or with another seed', () => {
    const question = { ...POOLED, sizes: [4, 3, 3], side: 'below' as const };
    const calibration = calibrateLots(question);
    expect(criticalScore(calibration, 1e-5)).toBeUndefined();
    expect(criticalScore(calibrateLots(question), 0.05)).toBe(criticalScore(calibration, 0.05));
    expect(() => calibrateLots({ ...question, sizes: [4, 3] })).toThrow('3 lots');
  });

  it('asks for more where rigs differ by an unknown share of the scatter', () => {
    const question = { ...POOLED, sizes: [8], side: 'below' as const };
    const plain = criticalScore(calibrateLots(question), 0.05) as number;
    expect(criticalScore(calibrateLots({ ...question, rigs: true }), 0.05) as number).toBeGreaterThanOrEqual(
      plain - 1e-9,
    );
  });
});

describe('a reference that the rig ends', () => {
  it('is simulated with just as many survivors', () => {
    const design = { ...POOLED, sizes: [4, 3, 3], survivors: 2, side: 'below' as const };
    const [early, middle, late] = endsFor(design, 0.3, 5).toSorted((a, b) => a - b) as [number, number, number];
    // Of 10 units 2 outlast it: near the 80 % point of a normal population, 0.84.
    expect(middle).toBeCloseTo(0.84, 1);
    expect(early).toBeLessThan(middle);
    expect(late).toBeGreaterThan(middle);
    let most = 0;
    const drawn = drawEnded(design, { share: 0.3, rigs: 0, end: middle }, { seed: 5, replicates: 200 }, (_, one) => {
      most = Math.max(most, one.centre);
    });
    expect(drawn).toBe(200);
    expect(most).toBeLessThan(middle);
    // Ten of ten units hardly ever outlast an end at the mean.
    expect(
      drawEnded({ ...design, survivors: 10 }, { share: 0, rigs: 0, end: 0 }, { seed: 5, replicates: 200 }, () => {}),
    ).toBe(0);
  });
});

describe('smallestShift', () => {
  it('is that of the noncentral t for one unit of one population', () => {
    const question = { ...POOLED, sizes: [10], side: 'below' as const };
    const critical = criticalScore(calibrateLots(question), 0.05) as number;
    const shift = smallestShift(question, { share: 0, rigs: 0 }, critical, 0.9) as number;
    // An item lower by `shift` is found where a noncentral t exceeds t(0.95; 9), a little farther out by the safe side.
    const found = noncentralT(
      -tQuantile(0.05 - 2 * Math.sqrt((0.05 * 0.95) / 40_000), 9),
      9,
      shift / Math.sqrt(1.1),
    ).above;
    expect(Math.abs(found - 0.9)).toBeLessThan(0.015);
    expect(smallestShift(question, { share: 0, rigs: 0 }, critical, 0.5) as number).toBeLessThan(shift);
  });
});

import type { Sample } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LowerToleranceBound, type LowerToleranceRequest, lowerToleranceBound } from './lower-tolerance-bound.js';

const B = { coverage: 0.9, confidence: 0.95, replicates: 500 } as const;

function bounded(request: LowerToleranceRequest): LowerToleranceBound {
  const bound = lowerToleranceBound(request);
  if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
  return bound;
}

const tyresOff: Sample = { exact: [1839, 1873, 1960, 1944, 1880], atLeast: [1465, 1500, 1600] };

describe('the conditional bound of a normal population', () => {
  // SciPy 1.17: double integral of L / sd over mean and ln sd (Gauss-Legendre and equal steps), root by brentq.
  it('agrees with the double integral for a test ended at its fifth break of eight', () => {
    const sample = { exact: [38.2, 41.0, 43.9, 44.6, 46.1], atLeast: [46.1, 46.1, 46.1] };
    const { bound, technique, achievedConfidence } = bounded({ ...B, sample, distribution: 'normal' });
    expect(bound).toBeCloseTo(31.496300961777695, 9);
    expect({ technique, achievedConfidence }).toEqual({ technique: 'conditional', achievedConfidence: 0.95 });
  });

  it('is the bound by noncentral t for a complete sample, and of logarithms for a lognormal one', () => {
    const exact = [41.2, 44.8, 46.1, 47.9, 50.3];
    for (const distribution of ['normal', 'lognormal'] as const) {
      const one = bounded({ ...B, sample: { exact }, distribution });
      const other = bounded({ ...B, sample: { exact }, distribution, technique: 'conditional' });
      expect(one.technique).toBe('noncentral-t');
      expect(other.bound / one.bound).toBeCloseTo(1, 10);
    }
  });
});

describe('the calibrated bound', () => {
  it('is taken where no exact one exists, and states the confidence that simulated tests reach', () => {
    const found = bounded({ ...B, sample: tyresOff, distribution: 'weibull', replicates: 2000 });
    expect(found).toMatchObject({
      technique: 'calibrated',
      forAcceptance: true,
      n: 8,
      failures: 5,
      seed: 1,
      replicates: 2000,
    });
    const reached = found.achievedConfidence as number;
    expect(reached).toBeGreaterThanOrEqual(0.95 - (found.simulationError as number));
    expect(found.simulationError).toBeCloseTo(Math.sqrt((reached * (1 - reached)) / 2000), 12);
    expect(found.assumptions.join()).toContain('an end drawn from those the survivors had beyond');
  });

  it('agrees with the conditional bound where that is exact', () => {
    const sample = { exact: [38, 41, 44], atLeast: [44, 44] };
    for (const distribution of ['weibull', 'normal', 'lognormal'] as const) {
      const exact = bounded({ ...B, sample, distribution });
      const calibrated = bounded({ ...B, sample, distribution, technique: 'calibrated' });
      expect(exact.technique).toBe('conditional');
      expect(calibrated.bound / exact.bound).toBeCloseTo(1, 9);
    }
  });

  it('is the same for the same seed; the seed moves the confidence reached and not the bound', () => {
    const request = { ...B, sample: tyresOff, distribution: 'lognormal' } as const;
    const here = bounded(request);
    const there = bounded({ ...request, seed: 2 });
    expect(bounded(request)).toEqual(here);
    expect(there.bound).toBe(here.bound);
    expect(there.achievedConfidence).not.toBe(here.achievedConfidence);
  });

  it('lies below the likelihood-ratio and the bootstrap bound, which are marked as no basis for acceptance', () => {
    for (const distribution of ['weibull', 'normal'] as const) {
      const { bound, estimate } = bounded({ ...B, sample: tyresOff, distribution });
      for (const technique of ['likelihood-ratio', 'bootstrap'] as const) {
        const bold = bounded({ ...B, sample: tyresOff, distribution, technique });
        expect(bold).toMatchObject({ forAcceptance: false, achievedConfidence: { notEvaluated: {} } });
        expect(bold.bound).toBeGreaterThan(bound);
        expect(bold.bound).toBeLessThan(estimate);
      }
    }
  });

  it('has too little to go by with one strength known', () => {
    expect(
      lowerToleranceBound({ ...B, sample: { exact: [40], atLeast: [45, 50] }, distribution: 'weibull' }),
    ).toMatchObject({ notEvaluated: { because: expect.stringContaining('fewer than two strengths') } });
  });

  // Two strengths, and three of which only an upper end is known: at the stated level simulated tests miss too often.
  it('is taken at a higher level where simulated tests miss too often', () => {
    const sample = { exact: [44, 47], atMost: [47.5, 47.5, 47.5] };
    const found = bounded({ ...B, replicates: 2000, sample, distribution: 'weibull' });
    expect(found.level).toBeGreaterThan(0.95);
    expect(found.achievedConfidence).toBeGreaterThanOrEqual(0.95 - (found.simulationError as number));
  });

  const samples = fc.record({
    exact: fc.uniqueArray(fc.integer({ min: 900, max: 1100 }), { minLength: 3, maxLength: 7 }),
    atLeast: fc.array(fc.integer({ min: 800, max: 1100 }), { minLength: 1, maxLength: 4 }),
  });
  const distributions = fc.constantFrom('weibull' as const, 'normal' as const, 'lognormal' as const);
  const calibrated = (sample: Sample, distribution: 'weibull' | 'normal' | 'lognormal', more = {}) =>
    bounded({ ...B, sample, distribution, technique: 'calibrated', ...more });

  it.each([
    ['lognormal', { exact: [1015, 983, 959, 1068], atLeast: [980, 906] }],
    ['normal', { exact: [1015, 947, 917, 1018, 1005], atLeast: [936, 888] }],
  ] as const)('of a %s lot is the same in whatever order its specimens were entered', (distribution, sample) => {
    const turned = { exact: sample.exact.toReversed(), atLeast: sample.atLeast.toReversed() };
    const [here, there] = [calibrated(sample, distribution), calibrated(turned, distribution)];
    expect(there.achievedConfidence).toBe(here.achievedConfidence);
    // Sums in another order differ in their last digits.
    expect(there.bound / here.bound).toBeCloseTo(1, 12);
  });

  it('moves with the unit and not with the order, falls as coverage or confidence rises, and lies below the estimate', () => {
    fc.assert(
      fc.property(samples, distributions, fc.constantFrom(0.145, 6.894757), (sample, distribution, unit) => {
        const here = calibrated(sample, distribution);
        const turned = {
          exact: sample.exact.toReversed().map((x) => x * unit),
          atLeast: sample.atLeast.toReversed().map((x) => x * unit),
        };
        expect(calibrated(turned, distribution).bound / unit / here.bound).toBeCloseTo(1, 7);
        expect(here.bound).toBeLessThan(here.estimate);
        expect(calibrated(sample, distribution, { confidence: 0.99 }).bound).toBeLessThan(here.bound);
        expect(calibrated(sample, distribution, { coverage: 0.99 }).bound).toBeLessThan(here.bound);
      }),
      { numRuns: 4 },
    );
  });
});

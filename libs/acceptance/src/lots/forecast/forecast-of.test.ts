import { type Criterion, type Forecast, isNotEvaluated } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { internalLimit } from '../../fixtures/invented-lot.js';
import { asJudged, bound, every, type GivenLot, ref, zero } from '../../fixtures/judged-lot.js';

const PLANNED = 8;
const atMostTwo: Criterion = { kind: 'failures at most', criterion: 'count', limit: ref, allowed: 2 };
const mean: Criterion = { kind: 'mean', criterion: 'mean', limit: ref, confidence: 0.9 };
const counting: Criterion[] = [every, atMostTwo, zero(0.75, 0.9), bound('distribution-free', 0.7, 0.9)];
const drawing: Criterion[] = [bound('normal', 0.9, 0.9), bound('lognormal', 0.9, 0.9), mean];

const planned = (criterion: Criterion, more: GivenLot = {}): GivenLot => ({
  specimens: PLANNED,
  criteria: [criterion],
  ...more,
});
const judge = (strengths: readonly number[], given: GivenLot) =>
  asJudged(
    strengths.map((value) => ({ value })),
    given,
  );
const forecast = (strengths: readonly number[], given: GivenLot) => judge(strengths, given).lines[0]?.forecast;
const probability = (strengths: readonly number[], given: GivenLot): number | undefined => {
  const found = forecast(strengths, given);
  return found && !isNotEvaluated(found) ? found.probability : undefined;
};

// kPa, on both sides of the fixture's limit of 1500.
const strengths = fc.array(fc.integer({ min: 1350, max: 2100 }), { minLength: 3, maxLength: 5 });
const few = (numRuns: number) => ({ numRuns, seed: 1 });

/** Where a number could not be had: JSON would write null. */
function numbersIn(found: Forecast): number[] {
  return [found.probability, found.error, found.remaining, found.seed, found.replicates];
}

describe('a forecast', () => {
  it.each([...counting, ...drawing].map((one) => [one.kind, one] as const))(
    'of %s is a probability with its error, or a reason, and only of lots not yet settled',
    (_, criterion) => {
      fc.assert(
        fc.property(strengths, (values) => {
          const { lines, outcome } = judge(values, planned(criterion));
          const found = lines[0]?.forecast;
          if (outcome !== 'undecided') expect(found).toBeUndefined();
          else if (!found || isNotEvaluated(found)) expect(found?.notEvaluated.because).toMatch(/\w/);
          else {
            expect(numbersIn(found).every(Number.isFinite)).toBe(true);
            expect(found.probability).toBeGreaterThanOrEqual(0);
            expect(found.probability).toBeLessThanOrEqual(1);
            expect(found.error).toBeGreaterThanOrEqual(0);
            expect(found.error).toBeLessThan(0.1);
            expect(found.remaining).toBe(PLANNED - values.length);
          }
        }),
        few(6),
      );
    },
  );

  it.each([...counting, ...drawing].map((one) => [one.kind, one] as const))(
    'of %s is the same each time, whatever the order of the specimens',
    (_, criterion) => {
      fc.assert(
        fc.property(strengths, (values) => {
          const [first, turned] = [values, values.toReversed()].map((some) => forecast(some, planned(criterion)));
          expect(turned).toEqual(first);
          expect(forecast(values, planned(criterion))).toEqual(first);
        }),
        few(4),
      );
    },
  );

  // The same chance is drawn for both, so that no draw that met the line may now miss it; a draw right on the edge may.
  it.each(drawing.map((one) => [one.kind, one] as const))(
    'of %s is not lowered where every specimen was stronger alike',
    (_, criterion) => {
      const logarithmic = criterion.kind === 'tolerance bound' && criterion.distribution === 'lognormal';
      fc.assert(
        fc.property(strengths, fc.integer({ min: 1, max: 200 }), (values, more) => {
          const stronger = values.map((value) => (logarithmic ? value * (1 + more / 1000) : value + more));
          const [before, after] = [values, stronger].map((some) => probability(some, planned(criterion)));
          if (before !== undefined && after !== undefined) expect(after).toBeGreaterThanOrEqual(before - 1e-6);
        }),
        few(6),
      );
    },
  );

  it.each(counting.map((one) => [one.kind, one] as const))(
    'of %s is not lowered where one specimen was stronger',
    (_, criterion) => {
      fc.assert(
        fc.property(strengths, fc.nat({ max: 4 }), (values, at) => {
          const stronger = values.map((value, index) => (index === at % values.length ? value + 300 : value));
          const [before, after] = [values, stronger].map((some) => probability(some, planned(criterion)));
          if (before !== undefined && after !== undefined) expect(after).toBeGreaterThanOrEqual(before);
        }),
        few(10),
      );
    },
  );

  it('of a Weibull bound is higher for stronger specimens, and the same in another order', () => {
    const given = planned(bound('weibull', 0.9, 0.9), { specimens: 6 });
    const [values, stronger] = [
      [1650, 1720, 1790, 1700],
      [1716, 1788.8, 1861.6, 1768],
    ];
    const before = probability(values, given) as number;
    expect(before).toBeGreaterThan(0);
    expect(before).toBeLessThan(1);
    expect(probability(values.toReversed(), given)).toBe(before);
    expect(probability(stronger, given)).toBeGreaterThan(before);
  });

  it('of a bound by ranks knows no guard band, since the bound knows none', () => {
    const guarded = internalLimit(1500, { rule: 'guarded', r: 1 });
    const criterion = bound('distribution-free', 0.7, 0.9);
    // 1505 kPa with U = 14 kPa fails the guarded limit, and lies above the limit that the bound must clear.
    const values = [1505, 1700, 1800];
    expect(probability(values, planned(criterion, { limits: [guarded] }))).toBe(
      probability(values, planned(criterion)),
    );
    expect(forecast(values, planned(criterion, { limits: [guarded], criteria: [criterion, atMostTwo] }))).toMatchObject(
      {
        notEvaluated: { because: expect.stringContaining('guard band') },
      },
    );
  });
});

import type { Sample } from '@breakbook/lab';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type KaplanMeier, kaplanMeier } from './kaplan-meier.js';
import { turnbullSteps } from './turnbull.js';

function stepsOf(sample: Sample): KaplanMeier {
  const found = kaplanMeier(sample);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('kaplanMeier', () => {
  it('counts a specimen withdrawn at the strength of a break as on test there', () => {
    const { points } = stepsOf({ exact: [10, 20], atLeast: [10, 15] });
    expect(points).toMatchObject([
      { value: 10, atRisk: 4, failed: 1, survival: 0.75 },
      { value: 20, atRisk: 1, failed: 1, survival: 0 },
    ]);
  });

  it('has no standard error where the last specimen broke', () => {
    const { points } = stepsOf({ exact: [10, 20] });
    expect(points[1]).toMatchObject({ survival: 0, standardError: { notEvaluated: {} }, limits: { notEvaluated: {} } });
  });

  it('says why there is nothing to draw', () => {
    expect(kaplanMeier({})).toMatchObject({ notEvaluated: { because: 'the sample is empty' } });
    expect(kaplanMeier({ atLeast: [3] })).toMatchObject({ notEvaluated: { possibleIf: 'at least 1 specimen breaks' } });
  });

  const strengths = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 12 });

  it('of a complete sample is the share that holds more, with limits about it', () => {
    fc.assert(
      fc.property(strengths, (exact) => {
        for (const { value, survival, limits } of stepsOf({ exact }).points) {
          expect(survival).toBeCloseTo(exact.filter((x) => x > value).length / exact.length, 12);
          if (Array.isArray(limits)) {
            expect(limits[0]).toBeLessThan(survival);
            expect(limits[1]).toBeGreaterThan(survival);
          }
        }
      }),
    );
  });
});

describe('turnbullSteps', () => {
  // Peto (1973), Appl. Statist. 22, 86-91, and every text after him: three overlapping intervals; by hand, the middle of
  // two that share it takes what both can give.
  it('puts the step where intervals overlap', () => {
    const steps = turnbullSteps({
      between: [
        [0, 2],
        [1, 3],
        [4, 6],
      ],
    });
    expect(steps).toEqual([
      { from: 1, to: 2, survival: expect.closeTo(1 / 3, 8) },
      { from: 4, to: 6, survival: expect.closeTo(0, 8) },
    ]);
  });

  // NumPy 2.4: the same self-consistency taken until no share moved by 1e-17; three shares, none a simple fraction.
  it('finds the likeliest shares where nothing is plain', () => {
    const steps = turnbullSteps({
      between: [
        [6, 8],
        [3, 7],
        [0, 5],
        [4, 8],
        [6, 11],
        [0, 4],
        [8, 9],
      ],
    });
    expect(steps).toEqual([
      { from: 3, to: 4, survival: expect.closeTo(0.6537579230605746, 6) },
      { from: 6, to: 7, survival: expect.closeTo(0.182802596174282, 6) },
      { from: 8, to: 9, survival: expect.closeTo(0, 6) },
    ]);
  });

  it('is Kaplan and Meier where nothing is known within an interval', () => {
    const values = fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 10 });
    fc.assert(
      fc.property(values, values, (exact, atLeast) => {
        const steps = turnbullSteps({ exact, atLeast });
        if ('notEvaluated' in steps) throw new Error(steps.notEvaluated.because);
        const { points } = stepsOf({ exact, atLeast });
        expect(steps.map(({ to }) => to)).toEqual(points.map(({ value }) => value));
        steps.forEach(({ survival }, index) => {
          expect(survival).toBeCloseTo(points[index]?.survival as number, 6);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('stands in for Kaplan and Meier with a note, and without standard errors', () => {
    const { method, note, points } = stepsOf({ exact: [5], atMost: [3], between: [[4, 6]] });
    expect(method).toBe('Turnbull');
    expect(note).toContain('within intervals');
    expect(points[0]).toMatchObject({
      value: 3,
      from: { notEvaluated: {} },
      survival: expect.closeTo(2 / 3, 8),
      standardError: { notEvaluated: {} },
    });
    expect(points[1]).toMatchObject({ value: 5, survival: expect.closeTo(0, 8) });
    expect(points[1]).not.toHaveProperty('from');
  });
});

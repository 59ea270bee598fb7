import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { summary } from './summary.js';

describe('summary', () => {
  it('keeps its digits where the values share many', () => {
    expect(summary([1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16])).toMatchObject({ mean: 1e9 + 10, sd: Math.sqrt(30) });
  });

  it('says why a single value has no scatter', () => {
    expect(summary([5])).toMatchObject({
      n: 1,
      mean: 5,
      sd: { notEvaluated: { possibleIf: 'at least 2 values are given' } },
      cv: { notEvaluated: {} },
      lag1Autocorrelation: { notEvaluated: { because: 'the values do not differ' } },
    });
  });

  it('says why there is no ratio to a mean of 0', () => {
    expect(summary([-1, 1])).toMatchObject({ sd: Math.SQRT2, cv: { notEvaluated: {} }, median: 0 });
  });

  it('has nothing to say of nothing', () => {
    expect(summary([])).toMatchObject({ notEvaluated: { because: 'there are no values' } });
  });

  it('refuses what is no number, and says where', () => {
    expect(() => summary([1, Number.NaN])).toThrow('values[1] must be a finite number; got NaN');
  });

  it('moves and stretches with the unit', () => {
    const values = fc.array(fc.double({ min: 1, max: 1000, noNaN: true }), { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(values, (pressures) => {
        fc.pre(new Set(pressures.map((value) => value.toPrecision(6))).size > 1);
        const [kPa, psi] = [summary(pressures), summary(pressures.map((value) => value / 6.894757293168361))];
        if ('notEvaluated' in kPa || 'notEvaluated' in psi) throw new Error('both have values');
        expect((psi.sd as number) * 6.894757293168361).toBeCloseTo(kPa.sd as number, 6);
        expect(psi.cv).toBeCloseTo(kPa.cv as number, 9);
      }),
    );
  });
});

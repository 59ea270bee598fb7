import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../distributions/normal.js';
import { type Fitted, maximumFor } from '../fits/location-scale-fit.js';
import { normalModel, type StrengthModel, weibullModel } from '../fits/strength-model.js';
import { seededGenerator } from '../random/generator.js';
import { normalToleranceConfidence } from './normal-tolerance-factor.js';
import { COARSE, FINE, pivotalQuantile } from './pivotal-quantile.js';
import { pivotGiven } from './weibull-conditional.js';

function fittedTo(model: StrengthModel, sample: Parameters<typeof maximumFor>[2]): Fitted {
  const fitted = maximumFor('test', model, sample);
  if ('notEvaluated' in fitted) throw new Error(fitted.notEvaluated.because);
  return fitted;
}

describe('pivotalQuantile', () => {
  // For a complete normal sample the double integral is the noncentral t distribution.
  it.each([2, 3, 8, 30])('is the noncentral t of %i normal strengths', (n) => {
    const { normal } = seededGenerator(n);
    const values = Array.from({ length: n }, normal);
    const mean = values.reduce((sum, x) => sum + x, 0) / n;
    const sd = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (n - 1));
    const fitted = fittedTo(normalModel, { exact: values });
    const { centre, spread } = fitted.likelihood;
    for (const coverage of [0.9, 0.99])
      for (const k of [0.3, 1.5, 3, 7]) {
        const y = (mean - k * sd - centre) / spread;
        const wanted = normalToleranceConfidence({ n, coverage, k }).confidence;
        const z = normalQuantile(1 - coverage);
        expect(pivotalQuantile(fitted, z, FINE)(y).above).toBeCloseTo(wanted, 12);
        expect(pivotalQuantile(fitted, z, COARSE)(y).above).toBeCloseTo(wanted, 3);
      }
  });

  // The same distribution as a single integral, by Lawless's formula, in its own file and with its own rule.
  it.each([
    { n: 3, failures: 3 },
    { n: 8, failures: 5 },
    { n: 20, failures: 20 },
  ])('is the conditional distribution of $failures Weibull breaks among $n', ({ n, failures }) => {
    const { weibull } = seededGenerator(10 * n);
    const strengths = Array.from({ length: n }, () => weibull({ shape: 8, scale: 1500 })).sort((a, b) => a - b);
    const exact = strengths.slice(0, failures);
    const atLeast = Array(n - failures).fill(exact[failures - 1]);
    const fitted = fittedTo(weibullModel, { exact, atLeast });
    const { likelihood, maximum } = fitted;
    const standardised = (x: number) =>
      maximum.intercept + (maximum.slope * (Math.log(x) - likelihood.centre)) / likelihood.spread;
    const sample = { broke: exact.map(standardised), held: atLeast.map(standardised) };
    for (const coverage of [0.9, 0.99])
      for (const pivot of [1, 3, 6, 10]) {
        const y = (-pivot - maximum.intercept) / maximum.slope;
        const wanted = pivotGiven(sample, coverage)(pivot);
        const z = Math.log(-Math.log(coverage));
        expect(pivotalQuantile(fitted, z, FINE)(y).above).toBeCloseTo(wanted.below, 10);
        expect(pivotalQuantile(fitted, z, COARSE)(y).below).toBeCloseTo(wanted.above, 2);
      }
  });

  it('has the slope of its own share', () => {
    const sample = { exact: [3, 5, 6, 9], atLeast: [4, 7], atMost: [5], between: [[2, 4]] as [number, number][] };
    for (const model of [normalModel, weibullModel]) {
      const given = pivotalQuantile(fittedTo(model, sample), -1.5);
      for (const y of [-3, -1, 0]) {
        const step = 1e-4;
        const rise = (given(y + step).below - given(y - step).below) / (2 * step);
        expect(given(y).slope).toBeCloseTo(rise, 6);
      }
    }
  });
});

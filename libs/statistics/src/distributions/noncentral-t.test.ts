import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noncentralTCdf, noncentralTQuantile } from './noncentral-t.js';
import { noncentralTByQuadrature } from './noncentral-t-quadrature.js';
import { noncentralTBySeries } from './noncentral-t-series.js';

describe('noncentralTCdf', () => {
  // mpmath 1.3, 40 digits: quad of Phi(t s - shift) over the chi density of s.
  it.each([
    { t: 3.479, degrees: 1, shift: 2, below: 0.578671015667809 },
    { t: -0.5, degrees: 1, shift: 2, below: 0.0103613826403559 },
    { t: 2, degrees: 2.5, shift: 1.5, below: 0.585524984354681 },
    { t: 20, degrees: 2, shift: 3, below: 0.9754256788896828 },
    { t: -2, degrees: 4, shift: 1, below: 0.007361395832446618 },
    { t: 0.3, degrees: 5, shift: 4, below: 0.0001085471727021653 },
    { t: 0, degrees: 7, shift: 1.25, below: 0.1056497736668553 },
    { t: 43.680257, degrees: 299, shift: 40.2934, below: 0.9500065165163921 },
    { t: 130, degrees: 9999, shift: 128.155, below: 0.9124819072773911 },
  ])('gives $below at t = $t, $degrees degrees of freedom, shift $shift', ({ t, degrees, shift, below }) => {
    expect(noncentralTCdf(t, degrees, shift) / below).toBeCloseTo(1, 11);
  });

  it('comes out the same by the finite series and by the integral', () => {
    const points = fc.record({
      degrees: fc.integer({ min: 1, max: 400 }),
      shift: fc.double({ min: 0, max: 20, noNaN: true }),
      share: fc.double({ min: 0.05, max: 3, noNaN: true }),
    });
    fc.assert(
      fc.property(points, ({ degrees, shift, share }) => {
        const t = share * (shift + 1);
        const series = noncentralTBySeries(t, degrees, shift);
        const integral = noncentralTByQuadrature(t, degrees, shift);
        expect(Math.abs(series.below - integral.below)).toBeLessThan(1e-12);
        expect(Math.abs(series.density - integral.density)).toBeLessThan(1e-11);
      }),
      { numRuns: 200 },
    );
  });

  it('refuses fewer than one degree of freedom', () => {
    expect(() => noncentralTCdf(1, 0.5, 1)).toThrow('degrees must be at least 1; got 0.5');
  });
});

describe('noncentralTQuantile', () => {
  // R 4.2.2: qt(p, degrees, ncp = shift), good to about 3e-12.
  it.each([
    { p: 0.95, degrees: 9, shift: 4.05, t: 7.442062043377 },
    { p: 0.05, degrees: 9, shift: 4.05, t: 2.247922227848 },
    { p: 0.95, degrees: 4, shift: 1.645 * Math.sqrt(5), t: 9.398206630239 },
    { p: 0.95, degrees: 99, shift: 16.45, t: 19.26700616354 },
  ])('gives $t at p = $p, $degrees degrees of freedom, shift $shift', ({ p, degrees, shift, t }) => {
    expect(noncentralTQuantile(p, degrees, shift) / t).toBeCloseTo(1, 10);
  });

  it('gives back the probability it was asked for, in the tails too', () => {
    const questions = fc.record({
      p: fc.oneof(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.constantFrom(1e-9, 1e-6, 0.0001, 0.9999, 1 - 1e-6),
      ),
      degrees: fc.oneof(fc.integer({ min: 1, max: 40 }), fc.constantFrom(1.5, 7.25, 999, 1001, 9999)),
      shift: fc.double({ min: -30, max: 60, noNaN: true }),
    });
    fc.assert(
      fc.property(questions, ({ p, degrees, shift }) => {
        const t = noncentralTQuantile(p, degrees, shift);
        expect(Math.abs(noncentralTCdf(t, degrees, shift) - p)).toBeLessThan(1e-9 * Math.min(p, 1 - p) + 1e-12);
      }),
      { numRuns: 200 },
    );
  });
});

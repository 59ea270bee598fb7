import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noncentralTCdf, noncentralTQuantile } from './noncentral-t.js';
import { isFar, noncentralTFar } from './noncentral-t-far.js';
import { noncentralTByQuadrature } from './noncentral-t-quadrature.js';
import { noncentralTBySeries } from './noncentral-t-series.js';
import { normalCdf } from './normal.js';

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
    // The same integral taken over the normal deviate.
    { t: 40000, degrees: 3, shift: 30000, below: 0.6397163983321634 },
    { t: 900, degrees: 2.5, shift: 1500, below: 0.04961625386393255 },
    { t: 5200, degrees: 99, shift: 5000, below: 0.6904251064858543 },
    { t: 2e8, degrees: 1, shift: 1e9, below: 5.73303143758388e-7 },
    { t: 31000, degrees: 4, shift: 200000, below: 5.91569454868248e-35 },
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

  it('comes out the same by either integral where one gives way to the other, in both tails', () => {
    const points = fc.record({
      degrees: fc.oneof(fc.integer({ min: 1, max: 400 }), fc.constantFrom(1.5, 7.25, 4999)),
      times: fc.double({ min: 31, max: 60, noNaN: true }),
      // In the chi density's own widths, where there is something in either tail.
      off: fc.double({ min: -4, max: 12, noNaN: true }),
      sign: fc.constantFrom(-1, 1),
    });
    fc.assert(
      fc.property(points, ({ degrees, times, off, sign }) => {
        const shift = times * Math.sqrt(2 * degrees + 50);
        const t = shift * Math.exp(off / Math.sqrt(2 * degrees));
        if (!isFar(t, degrees, shift)) return;
        const far = noncentralTFar(sign * t, degrees, sign * shift);
        const integral = noncentralTByQuadrature(sign * t, degrees, sign * shift);
        for (const part of ['below', 'above', 'density'] as const)
          expect(Math.abs(far[part] / integral[part] - 1)).toBeLessThan(1e-9);
      }),
      { numRuns: 100 },
    );
  });

  // A shift this far tells nothing from one without scatter: T is shift / S, so that what is wanted is a chi-square's share.
  it('is that of the chi-square far out, by the integral whose points do not grow', () => {
    const [t, shift] = [318_309_886.1837907, 2_828_427_124.74619];
    expect(isFar(t, 1, shift)).toBe(true);
    // One degree of freedom: P(X >= (shift / t)^2) = 2 Phi(-shift / t), X chi-square.
    expect(noncentralTCdf(t, 1, shift) / (2 * normalCdf(-shift / t))).toBeCloseTo(1, 9);
    expect(noncentralTCdf(-t, 1, shift)).toBe(0);
    expect(noncentralTCdf(t, 1, -shift)).toBe(1);
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

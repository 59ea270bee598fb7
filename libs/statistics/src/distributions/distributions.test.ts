import { describe, expect, it } from 'vitest';
import { binomialCdf } from './binomial.js';
import { gammaShare } from './gamma.js';
import { hypergeometricCdf } from './hypergeometric.js';
import { normalCdf, normalQuantile } from './normal.js';
import { owensT } from './owens-t.js';
import { weibullCdf, weibullQuantile, weibullSurvival } from './weibull.js';

describe('normalQuantile', () => {
  // SciPy 1.17: norm.ppf(p).
  it.each([
    { p: 1e-15, z: -7.941345326170998 },
    { p: 1e-10, z: -6.361340902404056 },
    { p: 1e-6, z: -4.753424308822899 },
    { p: 0.0005, z: -3.2905267314918945 },
    { p: 0.025, z: -1.9599639845400545 },
    { p: 0.5, z: 0 },
    { p: 0.9999999, z: 5.199337582290661 },
  ])('gives $z at $p', ({ p, z }) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 12);
  });

  it('is infinite at the ends', () => {
    expect([normalQuantile(0), normalQuantile(1)]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });

  it('undoes the distribution function', () => {
    for (const z of [-37, -20, -12, -8, -6.4, -5, -3.1, -1, 0, 1, 3.1])
      expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 11);
  });
});

describe('owensT', () => {
  // mpmath 1.3, 40 digits: quad of the defining integral.
  it.each([
    { h: 0.5, a: 0.25, value: 0.03432021712709421 },
    { h: 2, a: 0.9, value: 0.010928598829162457 },
    { h: 1, a: 5, value: 0.079327624471890175 },
    { h: 0, a: 1, value: 0.125 },
    { h: 4, a: 3, value: 1.5835620916559961e-5 },
  ])('gives $value at h = $h, a = $a', ({ h, a, value }) => {
    expect(Math.abs(owensT(h, a) - value)).toBeLessThan(1e-16);
  });
});

describe('hypergeometricCdf', () => {
  // mpmath 1.3, 40 digits: sum of binomial(K, i) binomial(N - K, n - i) / binomial(N, n).
  it.each([
    { count: 0, size: 100, marked: 10, drawn: 5, below: 0.583752366926151904 },
    { count: 3, size: 1000, marked: 50, drawn: 60, below: 0.647707950648917766 },
    { count: 2, size: 500, marked: 10, drawn: 250, below: 0.0529262656709504333 },
    { count: 0, size: 100_000, marked: 5000, drawn: 59, below: 0.0484508568387612474 },
    { count: 40, size: 1_000_000, marked: 50_000, drawn: 500, below: 0.998458652855415661 },
  ])('gives $below for at most $count of $drawn from $size with $marked marked', ({ count, below, ...draw }) => {
    expect(hypergeometricCdf(count, draw) / below).toBeCloseTo(1, 12);
  });

  it('knows what cannot happen and what must', () => {
    expect(hypergeometricCdf(0, { size: 10, marked: 8, drawn: 5 })).toBe(0);
    expect(hypergeometricCdf(5, { size: 10, marked: 8, drawn: 5 })).toBe(1);
    expect(() => hypergeometricCdf(0, { size: 10, marked: 11, drawn: 5 })).toThrow('cannot have 11 marked');
  });
});

describe('binomialCdf', () => {
  // SciPy 1.17: binom.cdf(count, trials, probability).
  it.each([
    { count: 3, trials: 60, probability: 0.1, below: 0.13739856941965792 },
    { count: 10, trials: 1049, probability: 0.01, below: 0.5216702299607378 },
    { count: 2, trials: 1049, probability: 0.01, below: 0.0017855707931516693 },
  ])('gives $below for at most $count of $trials at $probability', ({ count, trials, probability, below }) => {
    expect(binomialCdf(count, trials, probability) / below).toBeCloseTo(1, 12);
  });
});

describe('gammaShare', () => {
  // SciPy 1.17: gammainc(10, 0.001), gammaincc(10, 30).
  it('keeps its digits in both tails', () => {
    expect(gammaShare(10, 0.001).below / 2.753227859428452e-37).toBeCloseTo(1, 12);
    expect(gammaShare(10, 30).above / 7.121750862815593e-6).toBeCloseTo(1, 12);
  });

  it('meets the general function where the finite sum ends', () => {
    for (const shape of [59, 60, 61]) {
      const { below, above } = gammaShare(shape, shape);
      expect(below + above).toBeCloseTo(1, 13);
      expect(below).toBeCloseTo(0.5 + 1 / (3 * Math.sqrt(2 * Math.PI * shape)), 3);
    }
  });
});

describe('the Weibull distribution', () => {
  const rim = { shape: 12, scale: 1500 };

  it('has lost 63.2 % at its scale', () => {
    expect(weibullCdf(1500, rim)).toBeCloseTo(1 - Math.exp(-1), 14);
    expect(weibullSurvival(1500, rim)).toBeCloseTo(Math.exp(-1), 14);
  });

  it('gives back the share of its quantile', () => {
    for (const share of [1e-9, 0.01, 0.1, 0.5, 0.99])
      expect(weibullCdf(weibullQuantile(share, rim), rim) / share).toBeCloseTo(1, 11);
  });

  it('has nothing below zero', () => {
    expect([weibullCdf(-1, rim), weibullSurvival(0, rim), weibullQuantile(0, rim)]).toEqual([0, 1, 0]);
  });
});

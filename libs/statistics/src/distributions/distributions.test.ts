import { describe, expect, it } from 'vitest';
import { binomialCdf } from './binomial.js';
import { gammaShare } from './gamma.js';
import { hypergeometricCdf } from './hypergeometric.js';
import { normalCdf, normalQuantile } from './normal.js';
import { owensT } from './owens-t.js';
import { weibullCdf, weibullQuantile, weibullSurvival } from './weibull.js';

const GAMMA = [
  { shape: 0.5, x: 0.2, below: 0.4729107431344619, above: 0.5270892568655381 },
  { shape: 1, x: 3, below: 0.950212931632136, above: 0.04978706836786394 },
  { shape: 4.5, x: 2, below: 0.08858747316832083, above: 0.9114125268316792 },
  { shape: 10, x: 0.001, below: 2.753227859428463e-37, above: 1.0 },
  { shape: 10, x: 30, below: 0.9999928782491372, above: 7.121750862815577e-6 },
  { shape: 60, x: 45, below: 0.01865113464857545, above: 0.9813488653514246 },
  { shape: 60, x: 90, below: 0.9996747109890874, above: 0.0003252890109125407 },
  { shape: 99.5, x: 99.5, below: 0.513332174027681, above: 0.486667825972319 },
  { shape: 1000, x: 1000.5, below: 0.510510710923179, above: 0.489489289076821 },
  { shape: 4999.5, x: 4836.5, below: 0.01000669005773998, above: 0.98999330994226 },
  { shape: 4999.5, x: 5100, below: 0.9217071047846184, above: 0.07829289521538157 },
  { shape: 499999.5, x: 500000, below: 0.5004701580118873, above: 0.4995298419881127 },
];

describe('normalQuantile', () => {
  // SciPy 1.17: norm.ppf(p).
  it.each([
    { p: 1e-15, z: -7.941345326170998 },
    { p: 1e-10, z: -6.361340902404056 },
    { p: 1e-6, z: -4.753424308822899 },
    { p: 0.0005, z: -3.290526731491894 },
    { p: 0.025, z: -1.959963984540054 },
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
    { h: 2, a: 0.9, value: 0.01092859882916246 },
    { h: 1, a: 5, value: 0.07932762447189018 },
    { h: 0, a: 1, value: 0.125 },
    { h: 4, a: 3, value: 1.583562091655996e-5 },
  ])('gives $value at h = $h, a = $a', ({ h, a, value }) => {
    expect(Math.abs(owensT(h, a) - value)).toBeLessThan(1e-16);
  });
});

describe('hypergeometricCdf', () => {
  // mpmath 1.3, 40 digits: sum of binomial(K, i) binomial(N - K, n - i) / binomial(N, n).
  it.each([
    { count: 0, size: 100, marked: 10, drawn: 5, below: 0.583752366926152 },
    { count: 3, size: 1000, marked: 50, drawn: 60, below: 0.6477079506489177 },
    { count: 2, size: 500, marked: 10, drawn: 250, below: 0.05292626567095043 },
    { count: 0, size: 100_000, marked: 5000, drawn: 59, below: 0.04845085683876125 },
    { count: 40, size: 1_000_000, marked: 50_000, drawn: 500, below: 0.9984586528554157 },
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
    { count: 3, trials: 60, probability: 0.1, below: 0.1373985694196579 },
    { count: 10, trials: 1049, probability: 0.01, below: 0.5216702299607378 },
    { count: 2, trials: 1049, probability: 0.01, below: 0.001785570793151669 },
  ])('gives $below for at most $count of $trials at $probability', ({ count, trials, probability, below }) => {
    expect(binomialCdf(count, trials, probability) / below).toBeCloseTo(1, 12);
  });
});

describe('gammaShare', () => {
  // mpmath 1.3, 40 digits: gammainc(shape, x, regularized=True) and its complement.
  it.each(GAMMA)('gives both tails at shape $shape, x = $x', ({ shape, x, below, above }) => {
    const found = gammaShare(shape, x);
    expect(found.below / below).toBeCloseTo(1, 12);
    expect(found.above / above).toBeCloseTo(1, 12);
  });

  it('knows the ends', () => {
    expect(gammaShare(3, 0)).toEqual({ below: 0, above: 1, density: 0 });
    expect(gammaShare(2.5, 1e300)).toEqual({ below: 1, above: 0, density: 0 });
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

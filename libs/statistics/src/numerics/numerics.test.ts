import { describe, expect, it } from 'vitest';
import { rootOfIncreasing } from './find-root.js';
import { gaussLegendre } from './gauss-legendre.js';

describe('rootOfIncreasing', () => {
  it('finds a root far from where it starts', () => {
    const found = rootOfIncreasing((x) => ({ value: x ** 3 - 8e9, slope: 3 * x * x }), 1, 1);
    expect(found).toBeCloseTo(2000, 9);
  });

  it('ends where Newton steps lead nowhere', () => {
    // Nearly flat on both sides of a steep rise.
    const found = rootOfIncreasing(
      (x) => ({ value: Math.atan(1e6 * (x - 3)), slope: 1e6 / (1 + 1e12 * (x - 3) ** 2) }),
      -50,
      1,
    );
    expect(found).toBeCloseTo(3, 9);
  });

  it('ends where every step is small', () => {
    const found = rootOfIncreasing((x) => ({ value: Math.exp(x) - 1e-300, slope: Math.exp(x) }), 200, 1);
    expect(found).toBeCloseTo(Math.log(1e-300), 8);
  });

  it('says so when there is none', () => {
    expect(() => rootOfIncreasing((x) => ({ value: Math.atan(x) + 10, slope: 1 / (1 + x * x) }), 0, 1)).toThrow(
      'no root found',
    );
  });
});

describe('gaussLegendre', () => {
  it('is exact for polynomials of twice its order less one', () => {
    const { points, weights } = gaussLegendre(8);
    for (let degree = 0; degree < 16; degree++) {
      const integral = points.reduce((sum, x, index) => sum + (weights[index] as number) * x ** degree, 0);
      expect(integral).toBeCloseTo(1 / (degree + 1), 14);
    }
  });
});

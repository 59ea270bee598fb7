import { describe, expect, it } from 'vitest';
import { normalCdf, normalDensity } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { seededGenerator } from '../random/generator.js';
import { coverageOfParts, type ErrorPart } from './coverage-of-parts.js';

const rectangle = (halfWidth: number): ErrorPart => ({ shape: 'rectangular', halfWidth });
const normal = (u: number): ErrorPart => ({ shape: 'normal', u });

describe('coverageOfParts', () => {
  it('of one part alone is its quantile', () => {
    // JCGM 100:2008 (GUM), 4.3.7 and G.1.3: for a rectangle 95 % lies within 1.65 u; normal 1.960 u.
    expect(coverageOfParts([rectangle(Math.sqrt(3))], 0.95)).toBeCloseTo(0.95 * Math.sqrt(3), 12);
    expect(coverageOfParts([normal(1)], 0.95)).toBeCloseTo(1.959963984540054, 12);
    expect(coverageOfParts([{ shape: 'triangular', halfWidth: 1 }], 0.95)).toBeCloseTo(1 - Math.sqrt(0.05), 12);
    expect(coverageOfParts([{ shape: 'u-shaped', halfWidth: 1 }], 0.5)).toBeCloseTo(Math.SQRT1_2, 12);
  });

  it.each([0.5, 0.9, 0.95, 0.99])('of two equal rectangles is that of a triangle, at %d', (coverage) => {
    expect(coverageOfParts([rectangle(1), rectangle(1)], coverage)).toBeCloseTo(2 * (1 - Math.sqrt(1 - coverage)), 4);
  });

  it('of two unlike rectangles is that of a trapezoid', () => {
    // Half widths 3 and 1: tails beyond 2 fall in a straight line to 4, P(|X| > x) = (4 − x)² / 12.
    expect(coverageOfParts([rectangle(3), rectangle(1)], 0.95)).toBeCloseTo(4 - Math.sqrt(0.6), 4);
    // And where it is flat, 1/6 high.
    expect(coverageOfParts([rectangle(3), rectangle(1)], 0.5)).toBeCloseTo(1.5, 3);
  });

  it('of four equal rectangles gives the interval that JCGM 101 gives for its additive model', () => {
    // JCGM 101:2008, 9.2.3, table 3 (from memory): four rectangles of standard deviation 1, 95 % within ± 3.88.
    expect(
      coverageOfParts(
        [1, 2, 3, 4].map(() => rectangle(Math.sqrt(3))),
        0.95,
      ),
    ).toBeCloseTo(3.88, 2);
    // 9.2.2: four standard normals, ± 3.92.
    expect(
      coverageOfParts(
        [1, 2, 3, 4].map(() => normal(1)),
        0.95,
      ),
    ).toBeCloseTo(3.92, 2);
    // 9.2.4: three of deviation 1 and one of 10, ± 17.0 (analytically), where k = 1.96 would give 19.9.
    expect(
      coverageOfParts([...[1, 2, 3].map(() => rectangle(Math.sqrt(3))), rectangle(10 * Math.sqrt(3))], 0.95),
    ).toBeCloseTo(17, 1);
  });

  it.each([
    [0.3, 1],
    [1, 1],
    [1, 4],
  ])('of a normal part %d and a rectangle %d solves their closed form', (u, a) => {
    // F(x) = [G(x + a) − G(x − a)] / 2a with G(z) = z Φ(z/u) + u φ(z/u), the integral of Φ(z/u).
    const g = (z: number) => z * normalCdf(z / u) + u * normalDensity(z / u);
    const inside = (x: number) => (2 * (g(x + a) - g(x - a))) / (2 * a) - 1;
    const closed = rootOfIncreasing((x) => ({ value: inside(x) - 0.95, slope: 0 }), a, u, { from: 0, to: 6 * u + a });
    expect(coverageOfParts([normal(u), rectangle(a)], 0.95) / closed).toBeCloseTo(1, 4);
  });

  it('holds as often as it says, drawn from a seed', () => {
    const parts: ErrorPart[] = [
      normal(0.2),
      rectangle(1),
      { shape: 'triangular', halfWidth: 0.7 },
      { shape: 'u-shaped', halfWidth: 0.5 },
    ];
    const { uniform, normal: drawn } = seededGenerator(4);
    const most = coverageOfParts(parts, 0.95);
    const count = 40_000;
    let inside = 0;
    for (let i = 0; i < count; i++) {
      const sum =
        0.2 * drawn() +
        (2 * uniform() - 1) +
        0.35 * (2 * uniform() - 1 + 2 * uniform() - 1) +
        0.5 * Math.sin(2 * Math.PI * uniform());
      if (Math.abs(sum) <= most) inside++;
    }
    expect(Math.abs(inside / count - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / count));
  });

  it('refuses what is no part and no share', () => {
    expect(() => coverageOfParts([], 0.95)).toThrow('needs at least one part');
    expect(() => coverageOfParts([normal(0)], 0.95)).toThrow('u');
    expect(() => coverageOfParts([normal(1)], 95)).toThrow('between 0 and 1');
  });
});

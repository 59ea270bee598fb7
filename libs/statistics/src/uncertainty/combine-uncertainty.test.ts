import { describe, expect, it } from 'vitest';
import { combineUncertainty, coverageFactor } from './combine-uncertainty.js';

// JCGM 100:2008, H.1.6: comparator difference, 13/sqrt 5, 10/2.57 and 20/3 nm with 24, 5 and 8 degrees of freedom.
const COMPARATOR = [
  { name: 'repeated observations', u: 13 / Math.sqrt(5), degreesOfFreedom: 24 },
  { name: 'random effects of the comparator', u: 10 / 2.57, degreesOfFreedom: 5 },
  { name: 'systematic effects of the comparator', u: 20 / 3, degreesOfFreedom: 8 },
];

// JCGM 100:2008, H.1, table H.1: an end gauge of 50 mm, in nanometres.
const LENGTH = 50000623;
const END_GAUGE = [
  { name: 'standard', u: 25, degreesOfFreedom: 18 },
  { name: 'difference', u: 9.7, degreesOfFreedom: 25.6 },
  { name: 'difference of expansion', u: 0.58e-6, sensitivity: -LENGTH * -0.1, degreesOfFreedom: 50 },
  { name: 'difference of temperature', u: 0.029, sensitivity: -LENGTH * 11.5e-6, degreesOfFreedom: 2 },
];

describe('combineUncertainty', () => {
  it('gives the comparator difference of GUM H.1: 9.7 nm with 25.6 degrees of freedom', () => {
    const combined = combineUncertainty(COMPARATOR);
    expect(combined.standard).toBeCloseTo(9.663576930362096, 12);
    expect(combined.effectiveDegreesOfFreedom).toBeCloseTo(25.621942909295385, 9);
  });

  it('gives the end gauge of GUM H.1: 32 nm, 16 degrees of freedom, U = 93 nm at 99 %', () => {
    const combined = combineUncertainty(END_GAUGE);
    const printed = [25, 9.7, 2.9, 16.6];
    combined.contributions.forEach(({ u }, index) => {
      expect(Math.abs(u - (printed[index] ?? 0))).toBeLessThan(0.1);
    });
    expect(Math.round(combined.standard)).toBe(32);
    expect(combined.standard).toBeCloseTo(31.71060964043185, 5);
    expect(combined.effectiveDegreesOfFreedom).toBeCloseTo(16.656062703003922, 5);
    const k = coverageFactor(16.656062703003922, 0.99);
    expect(k).toBeCloseTo(2.92, 2);
    expect(Math.round(k * combined.standard)).toBe(93);
  });

  it('adds fully correlated sources without squaring: ten resistors of GUM 5.2.2 give 1 ohm', () => {
    // JCGM 100:2008, 5.2.2, example: ten resistors of 1000 ohm, each u = 100 mohm against one standard, r = 1.
    const sources = Array.from({ length: 10 }, (_, index) => ({ name: `R${index}`, u: 0.1 }));
    const pairs = sources.flatMap((a, i) =>
      sources.slice(i + 1).map((b) => ({ between: [a.name, b.name] as const, r: 1 })),
    );
    expect(combineUncertainty(sources, pairs).standard).toBeCloseTo(1, 12);
    expect(combineUncertainty(sources).standard).toBeCloseTo(Math.sqrt(10) * 0.1, 12);
  });

  it('gives the resistance of GUM H.2 with its three correlations', () => {
    // JCGM 100:2008, H.2, tables H.2 to H.4 (from memory): V, I, phi; R = (V / I) cos phi = 127.732, u = 0.071 ohm.
    const [voltage, current, phase] = [4.999, 19.661e-3, 1.04446];
    const resistance = (voltage / current) * Math.cos(phase);
    expect(resistance).toBeCloseTo(127.732, 2);
    const combined = combineUncertainty(
      [
        { name: 'V', u: 0.0032, sensitivity: resistance / voltage },
        { name: 'I', u: 0.0095e-3, sensitivity: -resistance / current },
        { name: 'phi', u: 0.00075, sensitivity: -resistance * Math.tan(phase) },
      ],
      [
        { between: ['V', 'I'], r: -0.36 },
        { between: ['V', 'phi'], r: 0.86 },
        { between: ['I', 'phi'], r: -0.65 },
      ],
    );
    expect(combined.standard).toBeCloseTo(0.071, 2);
    expect(combined.effectiveDegreesOfFreedom).toBe('unlimited');
  });

  it('says that degrees of freedom of correlated sources are not evaluated', () => {
    const combined = combineUncertainty(COMPARATOR, [
      { between: ['repeated observations', 'random effects of the comparator'], r: 0.5 },
    ]);
    expect(combined.effectiveDegreesOfFreedom).toMatchObject({
      notEvaluated: { because: expect.stringContaining('independent sources') },
    });
  });

  it('refuses a source named twice, a stranger in a correlation and correlations that cannot all hold', () => {
    const [a, b, c] = ['a', 'b', 'c'].map((name) => ({ name, u: 1 }));
    if (!a || !b || !c) throw new Error('three sources');
    expect(() => combineUncertainty([a, a])).toThrow('two sources are named "a"');
    expect(() => combineUncertainty([a], [{ between: ['a', 'z'], r: 0.1 }])).toThrow('got "a", "z"');
    const allAgainst = [
      { between: ['a', 'b'] as const, r: -1 },
      { between: ['a', 'c'] as const, r: -1 },
      { between: ['b', 'c'] as const, r: -1 },
    ];
    expect(() => combineUncertainty([a, b, c], allAgainst)).toThrow('cannot all hold');
  });
});

describe('coverageFactor', () => {
  // JCGM 100:2008, table G.2: t at 95 % for 9 degrees of freedom 2.26, for 99 % and 16 degrees 2.92; unlimited 1.960.
  // Further digits: SciPy t.ppf.
  it('cuts the degrees of freedom down to a whole number', () => {
    expect(coverageFactor(9.821790766694939, 0.95)).toBeCloseTo(2.2621571627409915, 9);
    expect(coverageFactor(16.9, 0.99)).toBeCloseTo(2.92, 2);
  });

  it('is the normal factor where the degrees of freedom are unlimited', () => {
    expect(coverageFactor('unlimited', 0.95)).toBeCloseTo(1.959963984540054, 9);
  });
});

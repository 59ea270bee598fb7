import { describe, expect, it } from 'vitest';
import { anovaBound } from '../anova-bound.js';
import { lowerToleranceBound } from '../lower-tolerance-bound.js';
import { type BasisQuestion, type BasisValue, basisValue } from './basis-value.js';
import { decide } from './decision.js';

const B: BasisQuestion = { coverage: 0.9, confidence: 0.95, replicates: 200 };

function answered(groups: number[][], more: Partial<BasisQuestion> = {}): BasisValue {
  const found = basisValue(groups, { ...B, ...more });
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

// Shyprykevich (1989), ASTM STP 1003: three batches of tensile strength, as kept in the NIST Dataplot library (VANGEL33.DAT).
const alike = [
  [72.5, 73.8, 68.1, 77.9, 65.5, 72.85, 77.81, 72.29, 75.78, 67.03],
  [73.23, 71.17, 79.92, 65.67, 74.28, 72.85, 77.81, 75.33, 71.75, 72.28],
  [79.08, 71.04, 67.84, 69.2, 71.53, 67.95, 82.84, 79.83, 80.52, 70.65],
];
// Scholz and Stephens (1987): smoothness of paper by four laboratories.
const unlike = [
  [38.7, 41.5, 43.8, 44.5, 45.5, 46.0, 47.7, 58.0],
  [39.2, 39.3, 39.7, 41.4, 41.8, 42.9, 43.3, 45.8],
  [34.0, 35.0, 39.0, 40.0, 43.0, 43.0, 44.0, 45.0],
  [34.0, 34.8, 34.8, 35.4, 37.2, 37.8, 41.2, 42.8],
];

describe('basisValue', () => {
  it('pools batches that agree and takes the first distribution that is not doubted', () => {
    const found = answered(alike);
    expect(found).toMatchObject({ technique: 'conditional', distribution: 'weibull', batches: 3, n: 30 });
    const sample = { exact: alike.flat() };
    const bound = lowerToleranceBound({ coverage: 0.9, confidence: 0.95, sample, distribution: 'weibull' });
    if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
    expect(found.bound).toBe(bound.bound);
    expect(found.steps.map(({ question }) => question)).toEqual([
      'How many batches are there?',
      'Does one value lie apart in batch 1?',
      'Does one value lie apart in batch 2?',
      'Does one value lie apart in batch 3?',
      'Does one value lie apart among all values?',
      'Do the batches agree?',
      'Which distribution explains the values?',
      'What strength does the bound give?',
      'How often does a bound found by this whole path hold?',
    ]);
    // Published statistic of the data set: MIL-HDBK-17 form 0.947, critical value 2.28 at 0.025.
    expect(found.steps[5]?.numbers.statistic).toBeCloseTo(0.9468, 4);
    expect(found.steps[5]?.numbers.critical).toBeCloseTo(2.2825, 4);
  });

  it('lets scatter between batches enter where they do not agree, and calls out a value without leaving it out', () => {
    const found = answered(unlike);
    expect(found.technique).toBe('analysis-of-variance');
    expect(found).not.toHaveProperty('distribution');
    const bound = anovaBound(unlike, { coverage: 0.9, confidence: 0.95 });
    if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
    expect(found.bound).toBe(bound.bound);
    expect(found.steps[1]).toMatchObject({
      numbers: { value: 58 },
      answer: expect.stringContaining('stays in the sample'),
    });
    expect(found.steps.at(-1)?.answer).toContain('between and');
  });

  it('warns below five batches, and limits the claim of one batch to that batch', () => {
    expect(answered(alike).warnings[0]).toContain('Fewer than 5');
    const one = answered([alike[0] as number[]]);
    expect(one.population).toBe('this batch alone');
    expect(one.warnings[0]).toContain('this batch alone');
    const six = [...alike, ...alike].map((group) => group.slice(0, 5));
    expect(answered(six).warnings.some((warning) => warning.includes('batches'))).toBe(false);
  });

  it('assumes no distribution where each is doubted: a rank for many values, Hanson-Koopmans for few', () => {
    const lumps = (n: number) => [Array.from({ length: n }, (_, index) => (index % 2 ? 100 : 50) + index * 0.01)];
    expect(answered(lumps(20)).technique).toBe('hanson-koopmans');
    expect(answered(lumps(40)).technique).toBe('order-statistic');
    expect(decide(lumps(40), 0.025)).not.toHaveProperty('distribution');
  });

  it('says why there is no answer', () => {
    expect(basisValue([[4, 5, 6]], B)).toMatchObject({ notEvaluated: { because: expect.stringContaining('too few') } });
    expect(basisValue([[4, 5], [6]], B)).toMatchObject({
      notEvaluated: { because: expect.stringContaining('single') },
    });
    expect(basisValue([], B)).toMatchObject({ notEvaluated: {} });
  });

  it('is the same for the same seed, and its error is that of what it counted', () => {
    const found = answered(alike, { seed: 5 });
    expect(answered(alike, { seed: 5 })).toEqual(found);
    const share = found.achievedConfidence;
    expect(found.simulationError).toBeCloseTo(Math.sqrt((share * (1 - share)) / 200), 12);
  });

  // Batches like these are now and then taken for alike, and pooled: as a whole the path covers less than it says.
  it('finds that letting a test decide costs confidence where batches differ', () => {
    const found = answered(unlike, { replicates: 1000 });
    expect(found.achievedConfidence).toBeLessThan(0.95 - found.simulationError);
    expect(found.keepsConfidence).toBe(false);
    expect(found.warnings.join()).toContain('the path as a whole reaches');
  });
});

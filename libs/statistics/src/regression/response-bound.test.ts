import { isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { responseBound } from './response-bound.js';
import { responseCurve } from './response-curve.js';
import type { StaircaseTrial } from './staircase.js';

function found(given: Parameters<typeof responseBound>[0]) {
  const bound = responseBound(given);
  if (isNotEvaluated(bound)) throw new Error(bound.notEvaluated.because);
  return bound;
}

function staircase(n: number, chance = seededGenerator(1), { median = 100, sd = 5, step = 5 } = {}): StaircaseTrial[] {
  let steps = 0;
  return Array.from({ length: n }, () => {
    const level = median + steps * step;
    const broke = median + sd * chance.normal() <= level;
    steps += broke ? -1 : 1;
    return { level, broke };
  });
}
const trials = staircase(24);

describe('responseBound', () => {
  it('is the profile limit at its root, and lies no higher than that of many specimens', () => {
    const bound = found({ trials, share: 0.5, confidence: 0.9, step: 5 });
    expect(bound.root).toBeGreaterThanOrEqual(bound.nominalRoot);
    expect(bound.achievedConfidence).toBeGreaterThanOrEqual(0.9);
    const rows = trials.map(({ level, broke }) => ({ level, tested: 1, broke: broke ? 1 : 0 }));
    const curve = responseCurve(rows, { link: 'probit', confidence: 0.8, quantiles: [0.5] });
    const [nominal] = (curve as { quantiles: { limits: { profile: number[] } }[] }).quantiles[0]?.limits.profile ?? [];
    expect(bound.bound).toBeLessThanOrEqual(nominal as number);
    expect(bound.bound).toBeLessThan(bound.estimate);
  });

  it('moves with the unit and the zero of the levels', () => {
    const one = found({ trials, share: 0.5, confidence: 0.9, step: 5 });
    const moved = trials.map(({ level, broke }) => ({ level: 3 * level + 40, broke }));
    const other = found({ trials: moved, share: 0.5, confidence: 0.9, step: 15 });
    expect(other.bound).toBeCloseTo(3 * one.bound + 40, 6);
  });

  it('lies lower the more confidence is asked', () => {
    const at = (confidence: number) => found({ trials, share: 0.5, confidence, step: 5 }).bound;
    expect(at(0.95)).toBeLessThan(at(0.8));
  });

  // Its own risk, over thousands of series, is in docs/lot-risks.md; here that it is not far off.
  it('lies above the truth no more often than it says', () => {
    const chance = seededGenerator(5);
    let above = 0;
    for (let series = 0; series < 100; series++) {
      const bound = responseBound({
        trials: staircase(20, chance),
        share: 0.5,
        confidence: 0.9,
        step: 5,
        replicates: 200,
      });
      if (!isNotEvaluated(bound) && bound.bound > 100) above++;
    }
    expect(above).toBeLessThanOrEqual(10 + 3.7 * 3);
  });

  it.each([
    ['nothing broke', trials.map(({ level }) => ({ level, broke: false })), 'no specimen broke'],
    ['levels part them', [90, 100, 110, 120].map((level) => ({ level, broke: level > 100 })), 'the levels part'],
    [
      'more broke lower down',
      [90, 100, 110, 90, 100, 110, 90, 110].map((level, i) => ({ level, broke: level < 100 || i === 4 || i === 2 })),
      'at lower levels',
    ],
  ])('says why there is none where %s', (_, given, because) => {
    expect(responseBound({ trials: given, share: 0.5, confidence: 0.9 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining(because) },
    });
  });
});

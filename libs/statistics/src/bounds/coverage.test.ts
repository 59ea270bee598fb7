import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../distributions/normal.js';
import { weibullQuantile } from '../distributions/weibull.js';
import { type Generator, seededGenerator } from '../random/generator.js';
import { type LowerToleranceRequest, lowerToleranceBound } from './lower-tolerance-bound.js';

// How often the bound really lies below the strength that 90 % of the population exceed, in seeded simulation.
const COVERAGE = 0.9;
const CONFIDENCE = 0.95;
const REPLICATES = 1200;
const standardError = Math.sqrt((CONFIDENCE * (1 - CONFIDENCE)) / REPLICATES);

const rim = { shape: 12, scale: 1500 };

function shareHeld(draw: (chance: Generator) => Partial<LowerToleranceRequest>, truth: number, seed: number): number {
  const chance = seededGenerator(seed);
  let held = 0;
  for (let replicate = 0; replicate < REPLICATES; replicate++) {
    const request = { coverage: COVERAGE, confidence: CONFIDENCE, ...draw(chance) } as LowerToleranceRequest;
    const bound = lowerToleranceBound(request);
    if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
    if (bound.bound <= truth) held++;
  }
  return held / REPLICATES;
}

function times(n: number, draw: () => number): number[] {
  return Array.from({ length: n }, draw);
}

describe('the confidence a bound states is the share of times it holds', () => {
  it.each([5, 8])('normal, noncentral t, n = %i', (n) => {
    const truth = 100 - 4 * normalQuantile(COVERAGE);
    const share = shareHeld(
      ({ normal }) => ({ sample: { exact: times(n, () => 100 + 4 * normal()) }, distribution: 'normal' }),
      truth,
      n,
    );
    expect(Math.abs(share - CONFIDENCE)).toBeLessThan(3 * standardError);
  });

  it.each([5, 8])('Weibull, conditional, complete, n = %i', (n) => {
    const share = shareHeld(
      ({ weibull }) => ({ sample: { exact: times(n, () => weibull(rim)) }, distribution: 'weibull' }),
      weibullQuantile(1 - COVERAGE, rim),
      n,
    );
    expect(Math.abs(share - CONFIDENCE)).toBeLessThan(3 * standardError);
  });

  it('Weibull, conditional, ended at the 5th break of 8', () => {
    const share = shareHeld(
      ({ weibull }) => {
        const strengths = times(8, () => weibull(rim)).sort((a, b) => a - b);
        const last = strengths[4] as number;
        return { sample: { exact: strengths.slice(0, 5), atLeast: [last, last, last] }, distribution: 'weibull' };
      },
      weibullQuantile(1 - COVERAGE, rim),
      58,
    );
    expect(Math.abs(share - CONFIDENCE)).toBeLessThan(3 * standardError);
  });

  it('and the likelihood-ratio bound falls short, which is why no acceptance rests on it', () => {
    const share = shareHeld(
      ({ weibull }) => ({
        sample: { exact: times(5, () => weibull(rim)) },
        distribution: 'weibull',
        technique: 'likelihood-ratio',
      }),
      weibullQuantile(1 - COVERAGE, rim),
      5,
    );
    expect(share).toBeLessThan(CONFIDENCE - 5 * standardError);
  });
});

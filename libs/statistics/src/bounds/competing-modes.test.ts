import { describe, expect, it } from 'vitest';
import { estimateWeibull } from '../fits/weibull-fit.js';
import { seededGenerator } from '../random/generator.js';
import { type CompetingModes, competingModes } from './competing-modes.js';
import { lowerToleranceBound } from './lower-tolerance-bound.js';
import { modesTogether, type SamplesByMode } from './samples-by-mode.js';

const question = { confidence: 0.9, quantiles: [0.1], replicates: 500 };

function answered(samples: SamplesByMode): CompetingModes {
  const found = competingModes(samples, question);
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

// Five rims broke, two tyres left a sound rim, one specimen held all the rig could give.
const lot: SamplesByMode = {
  rim: { exact: [1480, 1520, 1555, 1570, 1590], atLeast: [1500, 1540, 1600] },
  tyre: { exact: [1500, 1540], atLeast: [1480, 1520, 1555, 1570, 1590, 1600] },
};

describe('modesTogether', () => {
  it('counts every mode as a break, and as survivors those that no mode broke', () => {
    expect(modesTogether(lot)).toMatchObject({
      allModes: { exact: [1480, 1520, 1555, 1570, 1590, 1500, 1540], atLeast: [1600] },
    });
  });

  it('takes samples without survivors as what each mode broke', () => {
    const together = modesTogether({ rim: { exact: [5, 7] }, tyre: { exact: [6], between: [[3, 4]] } });
    expect(together).toMatchObject({
      byMode: { rim: { exact: [5, 7], atLeast: [6, 3] }, tyre: { exact: [6], atLeast: [5, 7] } },
      allModes: { exact: [5, 7, 6], between: [[3, 4]], atLeast: [] },
    });
  });

  it('says which specimen is missing from which mode', () => {
    const samples = { rim: { exact: [5, 7], atLeast: [8] }, tyre: { exact: [6], atLeast: [5, 7, 8] } };
    expect(modesTogether(samples)).toMatchObject({
      mode: 'rim',
      message: expect.stringContaining('broke at 6 is missing'),
    });
    expect(() => competingModes(samples, question)).toThrow('mode "rim"');
  });

  it('says where survivors differ', () => {
    const samples = { rim: { exact: [5], atLeast: [6, 8] }, tyre: { exact: [6], atLeast: [5, 9] } };
    expect(modesTogether(samples)).toMatchObject({ mode: 'tyre', message: expect.stringContaining('specimens at 9') });
  });
});

describe('competingModes', () => {
  const found = answered(lot);

  it('fits each mode with the others as survivors, and all modes as breaks', () => {
    expect(found.n).toBe(8);
    expect(found.failuresByMode).toEqual({ rim: 5, tyre: 2 });
    const rim = estimateWeibull(lot.rim ?? {});
    if ('notEvaluated' in rim) throw new Error('the rims have a fit');
    expect(found.perMode.rim).toMatchObject({ shape: rim.shape, scale: rim.scale, failures: 5, n: 8 });
    expect(found.allModes).toMatchObject({ failures: 7, n: 8 });
  });

  it('takes its bound from the all-modes sample', () => {
    const bound = lowerToleranceBound({
      sample: { exact: [1480, 1520, 1555, 1570, 1590, 1500, 1540], atLeast: [1600] },
      coverage: 0.9,
      confidence: 0.9,
      distribution: 'weibull',
    });
    if ('notEvaluated' in bound) throw new Error(bound.notEvaluated.because);
    expect(found.bounds[0]?.allModes).toMatchObject({ bound: expect.closeTo(bound.bound, 6), technique: 'calibrated' });
  });

  it('finds the strength that survives both modes, below that of each', () => {
    const { series } = found.bounds[0] ?? {};
    if (series === undefined || 'notEvaluated' in series) throw new Error('both modes have a fit');
    const survival = Object.values(found.perMode).reduce((product, fit) => {
      if ('notEvaluated' in fit) throw new Error('both modes have a fit');
      return product * Math.exp(-((series.estimate / fit.scale) ** fit.shape));
    }, 1);
    expect(survival).toBeCloseTo(0.9, 9);
    expect(series.lower).toBeLessThan(series.estimate);
    expect(series.simulationError).toBeGreaterThan(0);
  });

  it('leaves out a mode that broke nothing, and says why one break is too little for a series', () => {
    const { rim } = lot;
    const never = answered({ rim: rim ?? {}, spoke: { atLeast: [...(rim?.exact ?? []), ...(rim?.atLeast ?? [])] } });
    expect(never.perMode.spoke).toMatchObject({ notEvaluated: {} });
    expect(never.bounds[0]?.series).toHaveProperty('lower');
    const once = answered({ rim: { exact: [5, 7] }, tyre: { exact: [8] } });
    expect(once.bounds[0]?.series).toMatchObject({
      notEvaluated: { because: expect.stringContaining('mode "tyre" has no fit') },
    });
  });

  // Two modes of one shape: the least of both is Weibull again, with scale (s^-b + t^-b)^(-1/b).
  it('agrees with the Weibull distribution of the least of two where both have one shape', () => {
    const { weibull } = seededGenerator(9);
    const [rim, tyre, all] = [[] as number[], [] as number[], [] as number[]];
    for (let specimen = 0; specimen < 4000; specimen++) {
      const [a, b] = [weibull({ shape: 6, scale: 100 }), weibull({ shape: 6, scale: 110 })];
      (a < b ? rim : tyre).push(Math.min(a, b));
      all.push(Math.min(a, b));
    }
    const together = competingModes({ rim: { exact: rim }, tyre: { exact: tyre } }, { ...question, quantiles: [] });
    if ('notEvaluated' in together || 'notEvaluated' in together.allModes) throw new Error('there is a fit');
    const scale = (100 ** -6 + 110 ** -6) ** (-1 / 6);
    expect(Math.abs(together.allModes.scale / scale - 1)).toBeLessThan(0.01);
    expect(Math.abs(together.allModes.shape / 6 - 1)).toBeLessThan(0.05);
    const { rim: one } = together.perMode;
    if (one === undefined || 'notEvaluated' in one) throw new Error('there is a fit');
    expect(Math.abs(one.scale / 100 - 1)).toBeLessThan(0.01);
  });
});

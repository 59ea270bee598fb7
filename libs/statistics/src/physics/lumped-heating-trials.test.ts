import { isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { lumpedHeating } from './lumped-heating.js';
import { fitLumpedHeating } from './lumped-heating-fit.js';
import { refitLumpedHeating } from './lumped-heating-refit.js';
import { lumpedHeatingChange, lumpedHeatingTrials } from './lumped-heating-trials.js';

const FIT = { timeConstant: 90, thermalResistance: 0.3, startRise: 2 };
const PIECES = 120;
const duration = new Float64Array(PIECES).fill(2);
const power = Float64Array.from(duration, (_, i) => 600 + 100 * Math.sin(i / 8));
const time = Array.from({ length: PIECES + 1 }, (_, i) => 2 * i);
const segments = Array.from(power, (watts) => ({ power: watts, duration: 2 }));
const truth = lumpedHeating(
  time,
  { kind: 'segments', segments },
  { conductance: 1 / 0.3, capacity: 90 / 0.3, ambient: 0, start: 2 },
).temperature;
const NONE = { rise: 0, following: 0, power: new Float64Array(PIECES) };
const sd = (values: Float64Array) => {
  const mean = values.reduce((sum, one) => sum + one / values.length, 0);
  return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1));
};

describe('the fit from nearby', () => {
  it('finds what the search over all time constants finds, in noisy records', () => {
    const generator = seededGenerator(3);
    for (let record = 0; record < 20; record++) {
      const rise = truth.map((one) => one + 0.5 * generator.normal());
      const far = fitLumpedHeating(time, Array.from(rise), { kind: 'segments', segments }, 0);
      const near = refitLumpedHeating({ rise, power, duration }, FIT);
      if (isNotEvaluated(far) || !near) throw new Error('not fitted');
      expect(near.timeConstant / far.timeConstant).toBeCloseTo(1, 6);
      expect(near.thermalResistance / (far.thermalResistance ?? 0)).toBeCloseTo(1, 6);
      expect(near.startRise).toBeCloseTo(far.startRise, 4);
    }
  });

  it('does not settle where power and start cannot be told apart', () => {
    const cold = { rise: truth, power: new Float64Array(PIECES), duration };
    expect(refitLumpedHeating(cold, FIT)).toBeUndefined();
  });
});

describe('trials', () => {
  const run = (over: Partial<Parameters<typeof lumpedHeatingTrials>[2]>, trials = 4000) =>
    lumpedHeatingTrials({ power, duration }, FIT, { errors: [], noise: NONE, ...over }, { trials, seed: 5 });

  it('without errors find the fit again', () => {
    const { timeConstant, steadyRise, unsettled } = run({}, 10);
    expect(Math.max(...timeConstant.map(Math.abs))).toBeLessThan(1e-5);
    expect(Math.max(...steadyRise.map(Math.abs))).toBeLessThan(1e-6);
    expect(unsettled).toBe(0);
  });

  it('of independent scatter agree with the standard errors of the fit by its curvature', () => {
    const { timeConstant, thermalResistance } = run({ noise: { ...NONE, rise: 0.5 } });
    const generator = seededGenerator(11);
    const noisy = Array.from(truth, (one) => one + 0.5 * generator.normal());
    const fit = fitLumpedHeating(time, noisy, { kind: 'segments', segments }, 0);
    if (isNotEvaluated(fit)) throw new Error('not fitted');
    // The fit takes the scatter from its residuals; brought to the scatter laid over.
    const scale = 0.5 / fit.residualSd;
    expect(sd(timeConstant) / (scale * fit.standardErrors.timeConstant)).toBeCloseTo(1, 1);
    expect(sd(thermalResistance) / (scale * (fit.standardErrors.thermalResistance ?? 0))).toBeCloseTo(1, 1);
  });

  it('of a power off by a share throughout move the resistance by it, and neither time constant nor rise', () => {
    // R P is what the temperatures show: with P taken for P (1 + e), R becomes R / (1 + e).
    const errors = [{ name: 'force', u: 0.01, power }];
    const { timeConstant, thermalResistance, steadyRise } = run({ errors });
    expect(sd(timeConstant)).toBeLessThan(1e-4);
    expect(sd(steadyRise)).toBeLessThan(1e-4);
    expect(sd(thermalResistance) / 0.003).toBeCloseTo(1, 1);
    const change = lumpedHeatingChange({ power, duration }, FIT, { name: 'force', u: 0.01, power });
    expect(change?.thermalResistance).toBeCloseTo(-0.003, 6);
    expect(change?.timeConstant).toBeCloseTo(0, 4);
  });

  it('of a temperature off throughout spread as the refits at plus and minus its uncertainty say', () => {
    const error = { name: 'track', u: 0.5, rise: 1 };
    const change = lumpedHeatingChange({ power, duration }, FIT, error);
    const trials = run({ errors: [error] });
    for (const name of ['timeConstant', 'thermalResistance', 'steadyRise'] as const)
      expect(sd(trials[name]) / Math.abs(change?.[name] ?? 0)).toBeCloseTo(1, 1);
  });

  it('of two errors that err together add or cancel', () => {
    // Force and speed off alike double the error of the power; off against each other they leave none.
    const errors = ['force', 'speed'].map((name) => ({ name, u: 0.01, power }));
    const at = (r: number) => sd(run({ errors, together: [{ between: [0, 1], r }] }).thermalResistance);
    expect(at(1) / 0.006).toBeCloseTo(1, 1);
    expect(at(0) / (0.003 * Math.SQRT2)).toBeCloseTo(1, 1);
    expect(at(-1)).toBeLessThan(1e-4);
    const three = [...errors, { name: 'track', u: 1, rise: 1 }];
    const never = [
      { between: [0, 1], r: 1 },
      { between: [1, 2], r: 1 },
      { between: [0, 2], r: -1 },
    ] as const;
    expect(() =>
      run({ errors: three, together: never.map(({ between: [a, b], r }) => ({ between: [a, b], r })) }),
    ).toThrow('no errors can err together');
  });

  it('of scatter that follows itself spread more than of scatter that does not', () => {
    const alone = sd(run({ noise: { ...NONE, rise: 0.5 } }, 2000).timeConstant);
    const following = sd(run({ noise: { ...NONE, rise: 0.5, following: 0.5 } }, 2000).timeConstant);
    // √((1 + r) / (1 − r)) for a slow course: Bartlett (1935), J. R. Stat. Soc. 98, 536-543 (from memory).
    expect(following / alone).toBeGreaterThan(1.6);
    expect(following / alone).toBeLessThan(1.8);
  });
});

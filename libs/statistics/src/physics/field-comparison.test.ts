import { isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { compute } from '../compute/compute.js';
import { descentPower } from './descent-power.js';
import { predictField } from './field-comparison.js';
import { type FieldUncertainty, fieldSpread } from './field-comparison-uncertainty.js';

const BICYCLE = { mass: 90, dragArea: 0.4, rolling: 0.005, airDensity: 1.2 };
const DESCENT = { ...BICYCLE, slope: 0.1, speed: 25 / 3.6, share: 0.6, ambient: 20, length: { duration: 600 } };
const RIM = { thermalResistance: 0.3, timeConstant: 90, airSpeed: 30 / 3.6, exponent: 0.65 };
const predicted = (over: Partial<typeof DESCENT> = {}, rim: Partial<typeof RIM> = {}) => {
  const found = predictField({ ...DESCENT, ...over }, { ...RIM, ...rim });
  if (isNotEvaluated(found)) throw new Error(found.notEvaluated.because);
  return found;
};

describe('power of a descent', () => {
  it('is what takes the bicycle to no other speed: the equation of motion in small steps', () => {
    // m dv/dt = m g sin α − c m g cos α − ½ ρ A v² − P/v, from the same speed, for a minute.
    const { brakes } = descentPower(DESCENT);
    const angle = Math.atan(0.1);
    const force = 90 * 9.80665 * (Math.sin(angle) - 0.005 * Math.cos(angle));
    let [v, lost] = [DESCENT.speed, 0];
    const h = 0.01;
    for (let i = 0; i < 6000; i++) {
      v += (h * (force - 0.5 * 1.2 * 0.4 * v * v - brakes / v)) / 90;
      lost += h * v * Math.sin(angle);
    }
    expect(v).toBeCloseTo(DESCENT.speed, 9);
    // Energy: height given up less what air and tyres took is what the brakes took.
    const { gravity, air, rolling, descentRate } = descentPower(DESCENT);
    expect(90 * 9.80665 * lost).toBeCloseTo(60 * gravity, 6);
    expect(gravity - air - rolling).toBeCloseTo(brakes, 12);
    expect(descentRate * 60).toBeCloseTo(lost, 9);
  });

  it('without air and tyres is that of the height: m g h', () => {
    const { brakes, descentRate } = descentPower({ ...DESCENT, dragArea: 1e-12, rolling: 1e-12 });
    expect(brakes).toBeCloseTo(90 * 9.80665 * descentRate, 6);
  });
});

describe('the rim on a descent', () => {
  it('comes by steps to what the closed form says', () => {
    for (const duration of [1, 60, 600, 36_000]) {
      const { temperature, stepwise } = predicted({ length: { duration } });
      expect(stepwise).toBeCloseTo(temperature, 6);
    }
  });

  it('at the air speed of the rig is the body that was seen there, whatever the exponent', () => {
    const at = (exponent: number) => predicted({ speed: RIM.airSpeed }, { exponent });
    expect(at(0.5)).toEqual(at(0.8));
    expect(at(0.5).thermalResistance).toBe(0.3);
    expect(at(0.5).timeConstant).toBe(90);
  });

  it('is cooled less by slower air, with the heat capacity it had', () => {
    const slow = predicted({ speed: 15 / 3.6 }, { exponent: 0.5 });
    expect(slow.thermalResistance).toBeCloseTo(0.3 * Math.sqrt(2), 12);
    expect(slow.timeConstant / slow.thermalResistance).toBeCloseTo(90 / 0.3, 9);
  });

  it('takes a height for its time', () => {
    const byTime = predicted();
    const byHeight = predicted({ length: { height: byTime.height } as never });
    expect(byHeight.duration).toBeCloseTo(600, 9);
    expect(byTime.energyHere).toBeCloseTo(600 * byTime.powerHere, 6);
  });

  it('needs no brake where air and tyres hold it', () => {
    expect(predictField({ ...DESCENT, slope: 0.004 }, RIM)).toMatchObject({
      notEvaluated: { because: expect.stringContaining('no brake is needed') },
    });
  });

  it.each([
    [{ share: 60 }, 'It is no percentage'],
    [{ mass: -1 }, 'mass must be a finite number above 0'],
    [{ ambient: Number.NaN }, 'ambient must be a finite number'],
  ])('refuses %j', (over, message) => {
    expect(() => predictField({ ...DESCENT, ...over }, RIM)).toThrow(message);
  });
});

describe('the spread of a prediction', () => {
  const spread = (standard: FieldUncertainty['standard'], exponentHalfWidth = 0, seed = 1) =>
    fieldSpread(DESCENT, RIM, { standard, exponentHalfWidth }, { trials: 20_000, seed });

  it('is that of the law of propagation where the prediction is straight in its inputs', () => {
    // The share and R enter in proportion: relative variances add (JCGM 100:2008, 5.1.6; the product term is 4e-4 of it).
    const both = spread({ share: 0.012, thermalResistance: 0.006 });
    const rise = predicted().temperature - 20;
    expect(both.temperature.standard / (rise * Math.hypot(0.02, 0.02))).toBeCloseTo(1, 1);
    expect(both.powerHere.standard / (predicted().powerHere * 0.02)).toBeCloseTo(1, 1);
    // JCGM 101:2008, 7.7: a normal law keeps 95 % within 1.96 standard uncertainties.
    expect((both.powerHere.upper - both.powerHere.lower) / (2 * 1.96 * both.powerHere.standard)).toBeCloseTo(1, 1);
  });

  it('follows the exponent alone where only that is not known: between its two ends', () => {
    const { temperature, powerHere } = spread({}, 0.15);
    const ends = [0.5, 0.8].map((exponent) => predicted({}, { exponent }).temperature);
    expect(temperature.lower).toBeGreaterThan(Math.min(...ends));
    expect(temperature.upper).toBeLessThan(Math.max(...ends));
    // 95 % of a rectangular law (JCGM 101:2008, 6.4.2).
    const width = Math.abs((ends[1] as number) - (ends[0] as number));
    expect((temperature.upper - temperature.lower) / (0.95 * width)).toBeCloseTo(1, 1);
    expect(powerHere.standard).toBeLessThan(1e-9);
  });

  it('is the same for the same seed', () => {
    expect(spread({ mass: 2 })).toEqual(spread({ mass: 2 }));
    expect(spread({ mass: 2 }, 0, 2)).not.toEqual(spread({ mass: 2 }));
  });

  it('refuses a spread so wide that a mass may be negative', () => {
    expect(() => spread({ mass: 50 })).toThrow('more than a third of it');
  });
});

describe('the calculator', () => {
  const { length: _, ...descent } = DESCENT;
  const request = { method: 'field-comparison', ...descent, ...RIM, duration: 600 };

  it('compares with what the run reached, and says what it is not', () => {
    const reached = { energy: 400_000, temperature: 190, temperatureUncertainty: 2.5 };
    expect(compute({ ...request, reached, uncertainties: { thermalResistance: 0.006 }, trials: 1000 })).toMatchObject({
      result: {
        caution: expect.stringContaining('It never says that a descent is safe'),
        compared: {
          energyShare: { value: expect.closeTo(predicted().energyHere / 400_000, 12) },
          temperatureBelow: { value: expect.closeTo(190 - predicted().temperature, 9) },
        },
        extrapolated: false,
        spread: { trials: 1000, seed: 1 },
        takenAsExact: expect.not.arrayContaining(['thermalResistance']),
      },
    });
  });

  it.each<[string, object, object]>([
    ['neither time nor height', { duration: undefined }, { code: 'body.missing-field', pointer: '/duration' }],
    ['both', { height: 100 }, { code: 'body.unknown-field', pointer: '/duration' }],
    ['a share in percent', { share: 60 }, { code: 'body.range', pointer: '/share' }],
    ['an uncertainty of something else', { uncertainties: { wind: 1 } }, { code: 'body.unknown-field' }],
  ])('refuses %s', (_, over, error) => {
    expect(compute({ ...request, ...over })).toMatchObject({ error });
  });
});

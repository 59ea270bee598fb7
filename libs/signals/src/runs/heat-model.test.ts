import type { MethodCharacteristic } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  HEAT_CALIBRATIONS,
  HEAT_METHOD,
  type HeatInvention,
  inventedHeatRun,
  ONE_STAGE,
  RESISTANCE,
  SPEED,
  TIME_CONSTANT,
} from './invented-heat.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';

const read = (over: Partial<HeatInvention> = {}) => readRun(inventedHeatRun({ ...ONE_STAGE, ...over })).reading;

/** A rim warmed by the lumped model under a power that varies, one sample a step: exact where power is constant in it. */
function underPower(power: (braking: number) => number, rate: number): HeatInvention['row'] {
  let rise = 0;
  return (cells, { braking }) => {
    const left = cells.room + rise;
    const watts = cells.force > 0 ? power(braking) : 0;
    rise += -Math.expm1(-1 / rate / TIME_CONSTANT) * (RESISTANCE * watts - rise);
    return { ...cells, left, right: left - 4, force: watts / SPEED };
  };
}

// T = T_a + R P (1 − e^(−t/τ)): Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 5.1 to 5.3 (from memory).
describe('the rim as one heated body', () => {
  it('gives back time constant and resistance at constant power', () => {
    const reading = read({ noise: 0 });
    expect(numberOf(reading, 'timeConstant') / TIME_CONSTANT).toBeCloseTo(1, 2);
    expect(numberOf(reading, 'thermalResistance') / RESISTANCE).toBeCloseTo(1, 2);
    expect(numberOf(reading, 'steadyRise') / (RESISTANCE * 600)).toBeCloseTo(1, 2);
  });

  it('gives them back at a power that varies by a half, with noise', () => {
    const reading = read({ row: underPower((t) => 600 + 150 * Math.sin(t / 12), 10) });
    expect(Math.abs(numberOf(reading, 'timeConstant') / TIME_CONSTANT - 1)).toBeLessThan(0.03);
    expect(Math.abs(numberOf(reading, 'thermalResistance') / RESISTANCE - 1)).toBeLessThan(0.01);
  });

  it('takes the stage with the most energy of a run', () => {
    const { reading } = readRun(inventedHeatRun({}));
    expect(Math.abs(numberOf(reading, 'timeConstant') / TIME_CONSTANT - 1)).toBeLessThan(0.05);
    expect(named(reading, 'timeConstant').steps[0]?.answer).toContain('in stage 2');
  });

  it('is not evaluated on a record shorter than two time constants', () => {
    const reading = read({ stages: [{ power: 600, seconds: 120, cooling: 0 }] });
    for (const name of ['timeConstant', 'thermalResistance', 'steadyRise'])
      expect(named(reading, name).value).toMatchObject({
        notEvaluated: { because: expect.stringContaining('less than 2 of the time constants') },
      });
  });

  it.each<[string, Partial<HeatInvention>, string]>([
    [
      'a gap',
      { row: (cells, { braking }) => (braking > 100 && braking < 105 ? undefined : cells) },
      'the record has a gap while the brake was on',
    ],
    [
      'an open thermocouple',
      { row: (cells) => ({ ...cells, left: cells.left > 150 ? 1372 : cells.left, right: 24 }) },
      'was an open circuit',
    ],
    ['no braking', { row: (cells) => ({ ...cells, force: 0 }) }, 'the brake was never on'],
  ])('is not evaluated with %s', (_, over, because) => {
    expect(named(read(over), 'timeConstant').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining(because) },
    });
  });
});

describe('how sure its numbers are', () => {
  const CHANNELS = ['brakeForce', 'surfaceSpeed', 'trackTemperatureLeft', 'trackTemperatureRight'];
  const body = (uncertainty: NonNullable<MethodCharacteristic['uncertainty']>) => ({
    method: {
      characteristics: HEAT_METHOD.characteristics
        .filter(({ characteristic }) => ['timeConstant', 'thermalResistance', 'steadyRise'].includes(characteristic))
        .map((one) => ({ ...one, uncertainty })),
    },
  });
  const calibrated = (channels: readonly string[]) =>
    channels.map((channel) => ({ from: 'calibration' as const, name: channel, channel }));
  const uncertaintyOf = (over: Partial<HeatInvention>, name: string) => {
    const { uncertainty, steps } = named(read(over), name);
    if (!uncertainty) throw new Error(`${name}: ${steps.at(-1)?.answer}`);
    return uncertainty;
  };
  const partOf = (found: ReturnType<typeof uncertaintyOf>, name: string) =>
    found.components.find((one) => one.name === name)?.u ?? 0;

  it('follows the power in proportion for the resistance, and not at all for time constant and rise', () => {
    // u(F) = 1 N of 72 N: R = ΔT / P, so that u(R) / R = u(F) / F.
    const over = { noise: 0, ...body({ k: 2, components: calibrated(['brakeForce']) }) };
    const found = uncertaintyOf(over, 'thermalResistance');
    expect(found.expanded / (2 * RESISTANCE * (1 / 72))).toBeCloseTo(1, 1);
    expect(partOf(found, 'brakeForce') / (RESISTANCE / 72)).toBeCloseTo(1, 1);
    expect(partOf(uncertaintyOf(over, 'timeConstant'), 'brakeForce')).toBeLessThan(0.01);
    expect(partOf(uncertaintyOf(over, 'steadyRise'), 'brakeForce')).toBeLessThan(0.01);
  });

  it('leaves out the cooler sensor, which was not fitted', () => {
    const found = uncertaintyOf(body({ k: 2, components: calibrated(CHANNELS) }), 'timeConstant');
    expect(found.components.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['trackTemperatureLeft', 'scatter of temperature and power']),
    );
    expect(partOf(found, 'trackTemperatureRight')).toBe(0);
  });

  it('adds what else the budget names, in its own shape', () => {
    const half = { from: 'half width' as const, name: 'place on the track', halfWidth: 30, unit: 's' };
    for (const [distribution, divisor] of [
      ['rectangular', 3],
      ['triangular', 6],
      ['u-shaped', 2],
    ] as const) {
      const components = [{ ...half, distribution }];
      const input = inventedHeatRun({ ...ONE_STAGE, noise: 0, ...body({ k: 2, components }) });
      const characteristics = input.method.characteristics.filter((one) => one.characteristic === 'timeConstant');
      const method = { ...input.method, characteristics } as typeof input.method;
      const found = named(readRun({ ...input, method }).reading, 'timeConstant').uncertainty;
      expect((found?.expanded ?? 0) / (60 / Math.sqrt(divisor))).toBeCloseTo(1, 1);
    }
  });

  it('takes the factor from the trials where the method asks for a coverage', () => {
    // Nearly normal: 1.96 for 95 %.
    const found = uncertaintyOf(body({ coverage: 0.95, components: calibrated(CHANNELS) }), 'timeConstant');
    expect(found.coverage).toBe(0.95);
    expect(Math.abs(found.k - 1.96)).toBeLessThan(0.08);
  });

  it('draws jointly what errs together', () => {
    const components = calibrated(['brakeForce', 'surfaceSpeed']);
    const at = (r: number) => {
      const correlations = [{ between: ['brakeForce', 'surfaceSpeed'] as [string, string], r }];
      return uncertaintyOf({ noise: 0, ...body({ k: 2, components, correlations }) }, 'thermalResistance').expanded;
    };
    // u(F) = 1 N of 72 N, u(v) = 1 m/s of 25/3: relative parts add with their signs. With the power off by so large a share e,
    // 1 / (1 + e) is not straight: to fourth order its standard deviation is e √(1 + 8 e²), by the moments of a normal law.
    // 3000 trials know a standard deviation to 1.3 %, three of which are let pass.
    const told = (share: number) => 2 * RESISTANCE * share * Math.sqrt(1 + 8 * share * share);
    const [force, speed] = [1 / 72, 3 / 25];
    expect(Math.abs(at(1) / told(speed + force) - 1)).toBeLessThan(0.04);
    expect(Math.abs(at(-1) / told(speed - force) - 1)).toBeLessThan(0.04);
  });

  it('states none without a calibration, or for a channel that it does not follow', () => {
    const reading = read({
      ...body({ k: 2, components: calibrated(['brakeForce']) }),
      calibrations: HEAT_CALIBRATIONS.filter(({ sensor }) => sensor !== 'S-brakeForce'),
    });
    expect(named(reading, 'timeConstant')).not.toHaveProperty('uncertainty');
    expect(named(reading, 'timeConstant').steps.at(-1)?.answer).toContain('no calibration is in force');
    const air = read(body({ k: 2, components: calibrated(['airSpeed']) }));
    expect(named(air, 'timeConstant').steps.at(-1)?.answer).toContain('does not follow channel airSpeed');
  });

  it('is worked out for the stage with the most energy alone, of a run and of that stage', () => {
    const { reading } = readRun(inventedHeatRun(body({ k: 2, components: calibrated(['brakeForce']) })));
    const ofStage = (index: number) =>
      reading.passages?.[index]?.characteristics.find(({ characteristic }) => characteristic === 'thermalResistance');
    expect(ofStage(1)?.uncertainty).toEqual(named(reading, 'thermalResistance').uncertainty);
    expect(ofStage(1)?.uncertainty).toBeDefined();
    expect(ofStage(0)).not.toHaveProperty('uncertainty');
  });

  it('is the same every time, and says its trials and seed', () => {
    const over = body({ k: 2, components: calibrated(CHANNELS) });
    const one = named(read(over), 'timeConstant');
    expect(named(read(over), 'timeConstant')).toEqual(one);
    const { trials, seed } = one.steps.at(-1)?.numbers ?? {};
    expect(seed).toBe(101);
    expect(trials).toBeGreaterThanOrEqual(3000);
    expect(trials).toBeLessThanOrEqual(10_000);
  });
});

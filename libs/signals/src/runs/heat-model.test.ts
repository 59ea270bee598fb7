import { describe, expect, it } from 'vitest';
import {
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

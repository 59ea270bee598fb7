import type { Characteristic, Method, Reading } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { descentRequest, FIRST_TYPED } from './descent-request.js';
import { type RimOfRun, rimOfRun } from './rim-of-run.js';

const of = (
  characteristic: string,
  unit: string,
  value: Characteristic['value'],
  expanded?: number,
): Characteristic => ({
  characteristic,
  title: characteristic,
  unit,
  value,
  ...(expanded === undefined ? {} : { uncertainty: { expanded, k: 2, components: [] } }),
  source: 'trace',
  steps: [],
});
const exact = (value: number) => ({ kind: 'exact' as const, value });
const stage = (airSpeed: number) => ({ airSpeed: { value: airSpeed, unit: 'km/h' } });
const METHOD = { test: 'heat', parameters: { stages: [stage(18), stage(36)] } } as unknown as Method;
const READING = {
  characteristics: [
    of('timeConstant', 'min', exact(1.5), 0.1),
    of('thermalResistance', 'K/W', exact(0.3), 0.012),
    of('energySurvived', 'kJ', { kind: 'atLeast', value: 990 }),
    of('peakTemperature', '[degF]', exact(392), 9),
  ],
  passages: [
    { passage: 1, title: 'one', characteristics: [of('brakingEnergy', 'kJ', exact(700))] },
    { passage: 2, title: 'two', characteristics: [of('brakingEnergy', 'kJ', exact(290))] },
  ],
} as unknown as Reading;
const RIM = rimOfRun(READING, METHOD) as RimOfRun;

describe('what a run says of its rim', () => {
  it('is told in the units of the calculator, with standard uncertainties', () => {
    // 1.5 min; U 0.1 min with k 2 is 3 s. 392 °F is 200 °C; U 9 °F with k 2 is 2.5 K (NIST SP 811, 8.5 and B.8).
    expect(RIM.timeConstant).toMatchObject({ value: 90, standard: expect.closeTo(3, 9), atLeast: false });
    expect(RIM.temperature).toMatchObject({ value: expect.closeTo(200, 9), standard: expect.closeTo(2.5, 9) });
    expect(RIM.energy).toEqual({ value: 990_000, atLeast: true });
  });

  it('takes the air stream of the stage with the most energy, the one that the model is fitted to', () => {
    expect(RIM.airSpeed).toBeCloseTo(5, 12);
    expect(rimOfRun({ ...READING, passages: [] }, METHOD)?.airSpeed).toBeCloseTo(10, 12);
  });

  it('leaves out what was not evaluated, and runs of another kind', () => {
    const none = { notEvaluated: { because: 'too short', possibleIf: 'it is longer' } };
    const reading = { ...READING, characteristics: [of('timeConstant', 's', none)] };
    expect(rimOfRun(reading, METHOD)?.timeConstant).toBeUndefined();
    expect(rimOfRun(READING, { ...METHOD, test: 'burst' } as Method)).toBeUndefined();
  });
});

describe('the question to the calculator', () => {
  const request = (over: Partial<typeof FIRST_TYPED> = {}, rim = RIM) =>
    descentRequest({ ...FIRST_TYPED, ...over }, rim);

  it('is asked in its units', () => {
    expect(request()).toEqual({
      request: {
        method: 'field-comparison',
        slope: 0.1,
        speed: 25 / 3.6,
        height: 300,
        mass: 90,
        dragArea: 0.4,
        rolling: 0.005,
        airDensity: 1.2,
        share: 0.6,
        ambient: 20,
        thermalResistance: 0.3,
        timeConstant: 90,
        airSpeed: RIM.airSpeed,
        uncertainties: expect.objectContaining({
          slope: expect.closeTo(0.005, 12),
          share: expect.closeTo(0.03, 12),
          thermalResistance: 0.006,
        }),
        reached: {
          energy: 990_000,
          temperature: RIM.temperature?.value,
          temperatureUncertainty: RIM.temperature?.standard,
        },
      },
    });
  });

  it('takes what is typed as exact where its uncertainty is nothing', () => {
    expect(request({ sure: '0' })).toMatchObject({
      request: { uncertainties: { thermalResistance: 0.006, timeConstant: expect.closeTo(3, 9) } },
    });
    expect(request({ sure: '0' })).not.toMatchObject({ request: { uncertainties: { mass: expect.anything() } } });
  });

  it('asks for the rim where the run does not give it', () => {
    const rim = { ...RIM, thermalResistance: undefined };
    expect(request({}, rim)).toEqual({ said: expect.stringContaining('Thermal resistance of the rim, K/W: A number') });
    expect(request({ thermalResistance: '0.25' }, rim)).toMatchObject({ request: { thermalResistance: 0.25 } });
  });

  it.each([
    [{ speed: '25 km/h' }, 'Speed, km/h: “25 km/h” is no number'],
    [{ slope: '7,5' }, 'Slope, %: “7,5” has a comma'],
  ])('says what is to be written instead of %j', (over, said) => {
    expect(request(over)).toEqual({ said: expect.stringContaining(said) });
  });

  it('is not asked without an air stream to scale from', () => {
    expect(request({}, { ...RIM, airSpeed: 0 })).toEqual({ said: expect.stringContaining('states no air stream') });
  });
});

import { isNotEvaluated, type MethodCharacteristic } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  type HeatInvention,
  inventedHeatRun,
  ONE_STAGE,
  RESISTANCE,
  ROOM,
  TIME_CONSTANT,
} from './invented-heat.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';

const asked = (characteristic: string, kind: MethodCharacteristic['kind'], unit: string): MethodCharacteristic => ({
  characteristic,
  title: characteristic,
  kind,
  unit,
  definition: 'as the guide says',
});
const ASKED = [
  asked('powerStability', 'ratio', '1'),
  asked('interruptions', 'count', '1'),
  asked('longestInterruption', 'time', 's'),
  asked('timeToSteady', 'time', 's'),
  asked('peakRise', 'temperature difference', 'K'),
  asked('marginToGlassTransition', 'temperature difference', 'K'),
  asked('damageAbove120', 'temperature-time', 'K.min'),
  asked('timeSurvived', 'time', 's'),
  asked('energySurvived', 'energy', 'J'),
  asked('peakTemperature', 'temperature', 'Cel'),
];
const STEADY = { window: { value: 60, unit: 's' }, slopeAtMost: 6 };

const run = (over: Partial<HeatInvention> = {}) =>
  inventedHeatRun({
    ...ONE_STAGE,
    noise: 0,
    ...over,
    method: { characteristics: ASKED },
    parameters: { ...(over.stages ? {} : ONE_STAGE.parameters), steadyState: STEADY, ...over.parameters },
  });
const read = (over: Partial<HeatInvention> = {}) => readRun(run(over)).reading;
const valueGiven = (over: Partial<HeatInvention>, name: string) => named(read(over), name).value;
const because = (over: Partial<HeatInvention>, name: string) => {
  const value = valueGiven(over, name);
  return isNotEvaluated(value) ? value.notEvaluated.because : JSON.stringify(value);
};

describe('how the brake was kept on', () => {
  it('is wholly in its band, and without interruption, where nothing was wrong', () => {
    const reading = read();
    expect(numberOf(reading, 'powerStability')).toBeCloseTo(1, 12);
    expect(numberOf(reading, 'interruptions')).toBe(0);
    expect(numberOf(reading, 'longestInterruption')).toBe(0);
  });

  it('loses the share of its time that was braked beyond the band', () => {
    // A quarter of 240 s at 8 % too much, beyond the band of 5 %.
    const row: HeatInvention['row'] = (cells, { braking }) =>
      braking > 60 && braking <= 120 ? { ...cells, force: 1.08 * cells.force } : cells;
    expect(numberOf(read({ row }), 'powerStability')).toBeCloseTo(0.75, 2);
  });

  it('counts interruptions and tells the longest, and not the cooling between stages', () => {
    const row: HeatInvention['row'] = (cells, { braking }) =>
      (braking > 50 && braking < 55) || (braking > 80 && braking < 88) ? { ...cells, force: 0 } : cells;
    const reading = read({ row });
    expect(numberOf(reading, 'interruptions')).toBe(2);
    // The power is looked at over a second, and the ends lie between two samples each.
    expect(Math.abs(numberOf(reading, 'longestInterruption') - 8)).toBeLessThan(0.5);
    expect(numberOf(read({ stages: TWO_STAGES, named: true }), 'interruptions')).toBe(0);
  });

  it('is at least what was seen where the record has a gap', () => {
    const row: HeatInvention['row'] = (cells, { braking }) => (braking > 100 && braking < 105 ? undefined : cells);
    expect(valueGiven({ row }, 'interruptions')).toEqual({ kind: 'atLeast', value: 0 });
  });

  it.each<[string, Partial<HeatInvention>, string, string]>([
    [
      'a constant lever weight',
      { parameters: { ...ONE_STAGE.parameters, control: 'constant lever weight' } },
      'powerStability',
      'the pads decide the power',
    ],
    ['stages that nobody named', { stages: TWO_STAGES, named: false }, 'powerStability', 'the run names no stages'],
    ['stages that nobody named', { stages: TWO_STAGES, named: false }, 'interruptions', 'the run names no stages'],
    ['no braking', { row: (cells) => ({ ...cells, force: 0 }) }, 'powerStability', 'the brake was never on'],
  ])('is not evaluated with %s', (_, over, name, why) => {
    expect(because(over, name)).toContain(why);
  });
});

const TWO_STAGES: HeatInvention['stages'] = [
  { power: 300, seconds: 120, cooling: 0 },
  { power: 600, seconds: 240, cooling: 60 },
];

describe('when the track came to rest', () => {
  /**
   * The least-squares slope over a window W of A (1 − e^(−t/τ)) from t₀ is 12/W³ ∫ (s − W/2) f ds
   *     = (A/τ) e^(−t₀/τ) · 12 τ/W³ · [ W/2 τ (1 − e^(−W/τ)) − τ² (1 − e^(−W/τ) (1 + W/τ)) ],
   * by hand from the normal equations; solved for t₀, the answer is t₀ + W.
   */
  const closed = (rise: number, tau: number, { window: w, slope }: { window: number; slope: number }) => {
    const gone = 1 - Math.exp(-w / tau);
    const moment = tau ** 2 * (1 - Math.exp(-w / tau) * (1 + w / tau));
    const factor = (12 / w ** 3) * ((w / 2) * tau * gone - moment);
    return tau * Math.log((rise * factor) / slope) + w;
  };

  const LONG = {
    stages: [{ power: 600, seconds: 400, cooling: 0 }],
    parameters: { stages: ONE_STAGE.parameters.stages.map((one) => ({ ...one, duration: { value: 400, unit: 's' } })) },
  };

  it('agrees with the closed form of the lumped model', () => {
    // 6 K/min is 0.1 K/s. The median over 3 s and the samples leave a second or two.
    const at = closed(RESISTANCE * 600, TIME_CONSTANT, { window: 60, slope: 0.1 });
    expect(at).toBeGreaterThan(290);
    expect(Math.abs(numberOf(read(LONG), 'timeToSteady') - at)).toBeLessThan(2);
  });

  it('would have taken longer than the braking where it did not', () => {
    const stages = [{ power: 600, seconds: 150, cooling: 0 }];
    const value = valueGiven({ stages, parameters: ONE_STAGE.parameters }, 'timeToSteady');
    expect(value).toMatchObject({ kind: 'atLeast', value: expect.closeTo(150, 0) });
  });

  it('waits for a power in its band', () => {
    const row: HeatInvention['row'] = (cells, { braking }) =>
      braking > 0 ? { ...cells, force: 1.1 * cells.force } : cells;
    expect(valueGiven({ ...LONG, row }, 'timeToSteady')).toMatchObject({ kind: 'atLeast' });
  });

  it('is not evaluated where the method does not say what steady is, nor over a gap', () => {
    const { steadyState: _, ...parameters } = run().method.parameters as HeatInvention['parameters'];
    const input = run();
    const method = { ...input.method, parameters } as typeof input.method;
    expect(named(readRun({ ...input, method }).reading, 'timeToSteady').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('does not say when a track counts as steady') },
    });
    const row: HeatInvention['row'] = (cells, { braking }) => (braking > 100 && braking < 105 ? undefined : cells);
    expect(because({ row }, 'timeToSteady')).toContain('a gap while the brake was on');
  });
});

describe('how far the track warmed', () => {
  // T = T_a + R P (1 − e^(−t/τ)): Incropera and DeWitt, 5.1 to 5.3 (from memory).
  const warmed = (seconds: number) => RESISTANCE * 600 * (1 - Math.exp(-seconds / TIME_CONSTANT));

  it('above the room, is the warming of the lumped model less what the median takes', () => {
    expect(numberOf(read(), 'peakRise')).toBeLessThan(warmed(240));
    expect(numberOf(read(), 'peakRise')).toBeGreaterThan(warmed(238));
  });

  it('above the room of the same moment, though the room warms as well', () => {
    const row: HeatInvention['row'] = (cells) => ({
      ...cells,
      room: ROOM + cells.time / 60,
      left: cells.left + cells.time / 60,
    });
    expect(Math.abs(numberOf(read({ row }), 'peakRise') - numberOf(read(), 'peakRise'))).toBeLessThan(0.1);
  });

  it('below the glass transition, of the product before that of the method, wet where it is stated', () => {
    const transition = { dry: { value: 200, unit: 'Cel' }, source: 'data sheet 12 of an invented resin' };
    const peak = numberOf(read(), 'peakTemperature');
    const ofMethod = read({ parameters: { ...ONE_STAGE.parameters, glassTransition: transition } });
    expect(numberOf(ofMethod, 'marginToGlassTransition')).toBeCloseTo(200 - peak, 9);
    expect(named(ofMethod, 'marginToGlassTransition').caution).toContain('dry glass transition by data sheet 12');
    const input = run({ parameters: { ...ONE_STAGE.parameters, glassTransition: transition } });
    const wet = { ...transition, wet: { value: 165, unit: 'Cel' } };
    expect(numberOf(readRun({ ...input, glassTransition: wet }).reading, 'marginToGlassTransition')).toBeCloseTo(
      165 - peak,
      9,
    );
    expect(because({}, 'marginToGlassTransition')).toContain('neither the product nor the method');
  });

  it('leaves at most the margin where the peak is at least', () => {
    const glassTransition = { dry: { value: 473.15, unit: 'K' }, source: 'invented' };
    const row: HeatInvention['row'] = (cells) => ({
      ...cells,
      left: Math.min(cells.left, 400),
      right: cells.left > 150 ? 1372 : cells.right,
    });
    expect(
      valueGiven({ row, parameters: { ...ONE_STAGE.parameters, glassTransition } }, 'marginToGlassTransition'),
    ).toMatchObject({ kind: 'atMost' });
  });

  it('sums degrees above a level over time by the lumped model', () => {
    // ∫ (T_a + A (1 − e^(−t/τ)) − θ) dt from the crossing t₁ to 240 s, and the same of cooling over the 20 s recorded.
    const [rise, level] = [RESISTANCE * 600, 120 - ROOM];
    const crossing = -TIME_CONSTANT * Math.log(1 - level / rise);
    const warming =
      (rise - level) * (240 - crossing) -
      rise * TIME_CONSTANT * (Math.exp(-crossing / TIME_CONSTANT) - Math.exp(-240 / TIME_CONSTANT));
    const cooling = warmed(240) * TIME_CONSTANT * (1 - Math.exp(-19.9 / TIME_CONSTANT)) - level * 19.9;
    expect(numberOf(read(), 'damageAbove120')).toBeCloseTo((warming + cooling) / 60, 1);
  });
});

describe('every life', () => {
  it('says how the brake was driven, and what it is not compared with', () => {
    for (const control of ['constant power', 'constant force', 'constant lever weight'] as const) {
      const reading = read({ parameters: { ...ONE_STAGE.parameters, control } });
      for (const name of ['timeSurvived', 'energySurvived']) {
        const { caution, steps } = named(reading, name);
        expect(caution).toContain(`driven at ${control}: not comparable with`);
        expect(caution?.split('not comparable with')[1]).not.toContain(control);
        expect(steps[0]).toMatchObject({ numbers: { control } });
      }
    }
  });

  it('by time says that stages of unlike power were added', () => {
    expect(named(read({ stages: TWO_STAGES, named: true }), 'timeSurvived').caution).toContain(
      'stages of unlike power',
    );
    expect(named(read(), 'timeSurvived').caution).not.toContain('unlike');
  });
});

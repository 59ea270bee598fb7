import type { MethodCharacteristic } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  GRAVITY,
  type ImpactInvention,
  inventedImpactRun,
  MASS,
  measured,
  PULSE,
  RESTITUTION,
  strikeOf,
} from './invented-impact.fixture.js';
import { readRun } from './read-run.js';
import { named, numberOf } from './reading.fixture.js';

const characteristic = (
  name: string,
  kind: MethodCharacteristic['kind'],
  unit: string,
  over: Partial<MethodCharacteristic> = {},
): MethodCharacteristic => ({
  characteristic: name,
  title: name,
  kind,
  unit,
  definition: 'invented for tests',
  ...over,
});
const characteristics = [
  characteristic('stiffness', 'stiffness', 'N/mm'),
  characteristic('restitution', 'ratio', '1'),
  characteristic('onsetForce', 'force', 'N'),
  characteristic('onsetEnergy', 'energy', 'J'),
  characteristic('pressureLoss', 'ratio', '%'),
  characteristic('pressureLoss10Min', 'ratio', '%'),
];
const read = (over: Partial<ImpactInvention> = {}) =>
  readRun(inventedImpactRun({ ...over, method: { characteristics, ...over.method } })).reading;

/** A mass that meets a linear spring: δ = (v/ω) sin ωt + (g/ω²)(1 − cos ωt), with ω² = k/m. */
function spring(newtonsPerMillimetre: number, energy = 40) {
  const omega = Math.sqrt((1000 * newtonsPerMillimetre) / MASS);
  const { speed } = strikeOf(energy);
  const deflection = (t: number) =>
    (speed / omega) * Math.sin(omega * t) + (GRAVITY / omega ** 2) * (1 - Math.cos(omega * t));
  return {
    force: (_: number, t: number) =>
      t < 0 ? 0 : Math.max(0, 1000 * newtonsPerMillimetre * deflection(t) * Number(t < 0.012)),
    speed,
    deflection,
  };
}

describe('the stiffness of a part', () => {
  it.each([800, 2000, 2800])('of %d N/mm is found where a spring was struck', (newtons) => {
    expect(numberOf(read({ force: spring(newtons).force }), 'stiffness') / newtons).toBeCloseTo(1, 2);
  });

  it('follows the force sensor as its recomputation does', () => {
    const budget = { k: 2, components: [{ from: 'calibration' as const, name: 'force', channel: 'strikerForce' }] };
    const over = {
      method: { characteristics: [characteristic('stiffness', 'stiffness', 'N/mm', { uncertainty: budget })] },
    };
    const { force } = spring(2000);
    const plain = numberOf(read({ force, ...over }), 'stiffness');
    const peak = 2000 * 1000 * Math.max(...Array.from({ length: 100 }, (_, i) => spring(2000).deflection(i * 5e-5)));
    // 50 N at the peak, by its certificate: so much of the force throughout.
    const off = numberOf(read({ force: (n, t) => (1 + 50 / peak) * force(n, t), ...over }), 'stiffness');
    expect(named(read({ force, ...over }), 'stiffness').uncertainty?.components[0]?.u).toBeCloseTo(off - plain, 0);
  });

  it('is not evaluated where the force fell on the way, or is too coarse', () => {
    const { force } = spring(2000);
    const breaks = (n: number, t: number) => force(n, t) * (t > 0.0006 && t < 0.0012 ? 0.5 : 1);
    expect(named(read({ force: breaks }), 'stiffness').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('the force first fell below 40') },
    });
    const coarse = read({ force, rate: 2000, parameters: { lowPass: { value: 900, unit: 'Hz' } } });
    expect(named(coarse, 'stiffness').value).toMatchObject({
      notEvaluated: { because: expect.stringContaining('fewer than 3 samples') },
    });
  });
});

describe('the restitution of a strike', () => {
  it('is the speed that came back, by the gate and by the force', () => {
    expect(numberOf(read(), 'restitution')).toBeCloseTo(RESTITUTION, 6);
    const untimed = read({ measurements: (all) => all.filter(({ of }) => of !== 'reboundGateTime') });
    expect(numberOf(untimed, 'restitution')).toBeCloseTo(RESTITUTION, 2);
    expect([named(read(), 'restitution').source, named(untimed, 'restitution').source]).toEqual(['keyed', 'trace']);
  });

  it('stands beside the momentum, with a caution where that does not agree', () => {
    const good = named(read(), 'restitution');
    expect(good).not.toHaveProperty('caution');
    // m (1 + e) v, both ways: Newton's second law.
    expect(good.steps.at(-1)?.numbers['m (v_i + v_r), N·s']).toBeCloseTo(MASS * 1.5 * strikeOf(40).speed, 6);
    const off = named(read({ force: (newtons) => 0.9 * newtons }), 'restitution');
    expect(off.caution).toMatch(/^speeds and force disagree by 10/);
  });
});

describe('the onset of damage', () => {
  /** Gives way at 3 ms, the middle of a half-sine: a fifth of the force is lost at once. */
  const breaks = (newtons: number, t: number) => newtons * (t > 0.003 ? 0.8 : 1);

  it('has the energy that the part had taken by then', () => {
    const reading = read({ force: breaks });
    const { speed, velocity, deflection, peak } = strikeOf(40);
    const at = reading.events.find(({ name }) => name === 'onset of damage')?.time as number;
    // The low-pass of 3 kHz rounds the edge over less than half of its period.
    expect(Math.abs(at - 0.003)).toBeLessThan(1.5e-4);
    const energy = (MASS * (speed ** 2 - velocity(at) ** 2)) / 2 + MASS * GRAVITY * deflection(at);
    expect(numberOf(reading, 'onsetForce') / peak).toBeCloseTo(1, 1);
    expect(numberOf(reading, 'onsetEnergy')).toBeCloseTo(energy, 1);
    expect(named(reading, 'onsetEnergy').value).toMatchObject({ kind: 'exact' });
  });

  it('is at least what the part took where nothing gave way', () => {
    const { speed, deflection, velocity } = strikeOf(40);
    const taken = (t: number) => (MASS * (speed ** 2 - velocity(t) ** 2)) / 2 + MASS * GRAVITY * deflection(t);
    const most = Math.max(...Array.from({ length: 601 }, (_, i) => taken((i * PULSE) / 600)));
    expect(named(read(), 'onsetEnergy').value).toEqual({ kind: 'atLeast', value: expect.closeTo(most, 1) });
  });

  it('lies between two strikes of a rising energy', () => {
    const reading = read({
      energies: [40, 45],
      parameters: { series: 'rising energy' },
      force: (newtons, t, strike) => (strike === 1 ? breaks(newtons, t) : newtons),
    });
    const value = named(reading, 'onsetEnergy').value as { kind: string; lower: number; upper: number };
    expect(value.kind).toBe('between');
    expect(value.upper - value.lower).toBeGreaterThan(0);
    expect(
      reading.passages?.map(
        ({ characteristics: all }) => all.find((one) => one.characteristic === 'onsetEnergy')?.value,
      ),
    ).toMatchObject([{ kind: 'atLeast' }, { kind: 'exact' }]);
  });
});

describe('the pressure that a tyre lost', () => {
  const keyed = (after: number, warm: number) => [
    measured('tyrePressureBefore', 6, 'bar'),
    measured('tyrePressureAfter', after, 'bar'),
    measured('tyreTemperatureBefore', 20, 'Cel'),
    measured('tyreTemperatureAfter', warm, 'Cel'),
    measured('roomPressure', 1, 'bar'),
  ];
  const lost = (measurements: ReturnType<typeof keyed>) => read({ measurements: (all) => [...all, ...measurements] });

  it('is nothing where it only cooled: p/T stays (law of Gay-Lussac)', () => {
    const cooled = 7 * (283.15 / 293.15) - 1;
    expect(numberOf(lost(keyed(cooled, 10)), 'pressureLoss')).toBeCloseTo(0, 9);
  });

  it('is the share of the pressure before, with the cooling taken off', () => {
    expect(numberOf(lost(keyed(5.7, 20)), 'pressureLoss')).toBeCloseTo(5, 9);
    // Half of the air above that of the room is left, and it warmed by 20 K: (3 + 1) · 313.15/293.15 − 1 bar.
    expect(numberOf(lost(keyed(4 * (313.15 / 293.15) - 1, 40)), 'pressureLoss')).toBeCloseTo(50, 9);
  });

  it('says what was not keyed; what a person keyed as the loss itself stands', () => {
    expect(named(lost(keyed(5.7, 20).slice(0, 4)), 'pressureLoss').value).toMatchObject({
      notEvaluated: { because: 'no roomPressure was keyed' },
    });
    expect(named(lost(keyed(5.7, 20)), 'pressureLoss10Min').value).toMatchObject({
      notEvaluated: { because: 'no tyrePressureAfter10Min was keyed; no tyreTemperatureAfter10Min was keyed' },
    });
    expect(numberOf(lost([measured('pressureLoss', 4, '%')]), 'pressureLoss')).toBe(4);
  });
});

describe('a name that a method means otherwise', () => {
  it('is what a person keyed, as it was', () => {
    const reading = read({
      measurements: (all) => [...all, measured('stiffness', 12, 'N.m')],
      method: { characteristics: [characteristic('stiffness', 'torque', 'N.m')] },
      energies: [40, 45],
      parameters: { series: 'rising energy' },
    });
    expect(reading.passages?.map(({ characteristics: own }) => own)).toEqual([[], []]);
    expect(named(reading, 'stiffness')).toMatchObject({ source: 'keyed', value: { kind: 'exact', value: 12 } });
  });
});

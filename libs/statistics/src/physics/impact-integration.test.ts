import { describe, expect, it } from 'vitest';
import { compute } from '../compute/compute.js';
import { brakingHeat } from './braking-heat.js';
import { drop } from './drop.js';
import { integrateImpact } from './impact-integration.js';

describe('integrateImpact', () => {
  it('gives a mass on a spring its closed form: δ = v₀/ω sin ωt, all energy given back', () => {
    // Newton's law for a linear spring without gravity: F = k δ, ω = √(k/m).
    const [mass, speed, stiffness] = [10, 3, 4e5];
    const omega = Math.sqrt(stiffness / mass);
    const time = Array.from({ length: 4001 }, (_, i) => (i * Math.PI) / omega / 4000);
    const found = integrateImpact({
      time,
      force: time.map((t) => ((stiffness * speed) / omega) * Math.sin(omega * t)),
      mass,
      speed,
      gravity: 0,
    });
    expect(found.maxDeflection).toBeCloseTo(speed / omega, 7);
    expect(found.timeOfMaxDeflection).toBeCloseTo(Math.PI / 2 / omega, 7);
    expect(found.rebound).toBeCloseTo(speed, 5);
    expect(found.absorbedEnergy).toBeCloseTo(0, 4);
    expect(found.impulse).toBeCloseTo(2 * mass * speed, 4);
  });

  it('says that a striker which never came to rest went on', () => {
    const found = integrateImpact({ time: [0, 0.001], force: [100, 100], mass: 10, speed: 3 });
    expect(found).toMatchObject({ cameToRest: false, maxDeflection: found.deflection[1] });
    expect(found.rebound).toBeLessThan(0);
    expect(found).not.toHaveProperty('timeOfMaxDeflection');
  });

  it.each<[object, string]>([
    [{ time: [0] }, 'time and force must be of one length'],
    [{ time: [0, 0] }, 'time must increase'],
    [{ mass: 0 }, 'mass must be a finite number above 0'],
    [{ force: [0, Number.NaN] }, 'force[1] must be a finite number'],
  ])('refuses %j', (over, message) => {
    const record = { time: [0, 1], force: [0, 1], mass: 1, speed: 1, ...over };
    expect(() => integrateImpact(record)).toThrow(message);
  });

  it('is asked for by name', () => {
    expect(
      compute({ method: 'impact-integration', time: [0, 1], force: [0, 1], mass: 1, speed: 1, gravity: 0 }),
    ).toMatchObject({ result: { velocity: [1, 0.5], deflection: [0, 0.75], impulse: 0.5, peakForce: 1 } });
  });
});

describe('drop and stop', () => {
  it('refuse what is no fall and no stop', () => {
    expect(() => drop(1, -1)).toThrow('height must be a finite number above 0');
    const stop = { mass: 90, speedFrom: 5, speedTo: 10, share: 1, capacity: 800 };
    expect(() => brakingHeat(stop)).toThrow('from a speed to a lower one; got 5 to 10 m/s');
    expect(() => brakingHeat({ ...stop, speedTo: 0, share: 60 })).toThrow('It is no percentage');
  });
});

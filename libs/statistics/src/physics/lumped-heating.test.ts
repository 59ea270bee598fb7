import { isNotEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { compute } from '../compute/compute.js';
import { seededGenerator } from '../random/generator.js';
import { heatingResponse } from './heating-response.js';
import { lumpedHeating } from './lumped-heating.js';
import { fitLumpedHeating } from './lumped-heating-fit.js';

const TAU = 100;
const R = 0.3;
const AMBIENT = 23;
const time = Array.from({ length: 901 }, (_, i) => i);
/** Rising and falling power, straight between samples. */
const power = time.map((t) => 600 + 150 * Math.sin(t / 40) + (t > 500 ? -200 : 0));

/** The same heating by small steps of the differential equation itself (classical Runge-Kutta). */
function bySteps(): number[] {
  const out = [AMBIENT + 5];
  const at = (t: number) => {
    const i = Math.min(Math.floor(t), time.length - 2);
    return (power[i] as number) + ((power[i + 1] as number) - (power[i] as number)) * (t - i);
  };
  const slope = (t: number, temperature: number) => (R * at(t) - (temperature - AMBIENT)) / TAU;
  let temperature = AMBIENT + 5;
  const h = 0.05;
  for (let i = 1; i < time.length; i++) {
    for (let k = 0; k < 20; k++) {
      const t = i - 1 + k * h;
      const k1 = slope(t, temperature);
      const k2 = slope(t + h / 2, temperature + (h * k1) / 2);
      const k3 = slope(t + h / 2, temperature + (h * k2) / 2);
      const k4 = slope(t + h, temperature + h * k3);
      temperature += (h * (k1 + 2 * k2 + 2 * k3 + k4)) / 6;
    }
    out.push(temperature);
  }
  return out;
}
const course = bySteps();

describe('heating under a power that varies', () => {
  it('agrees with the differential equation integrated in small steps (Runge-Kutta)', () => {
    const response = heatingResponse(time, { kind: 'sampled', power }, TAU, 0);
    const largest = Math.max(
      ...time.map((t, i) =>
        Math.abs(AMBIENT + R * (response[i] as number) + 5 * Math.exp(-t / TAU) - (course[i] as number)),
      ),
    );
    expect(largest).toBeLessThan(1e-6);
  });

  it('is the same in pieces as sampled, where power is constant in each', () => {
    const pieces = [300, 600].map((watts) => ({ power: watts, duration: 50 }));
    const piecewise = lumpedHeating(
      [25, 50, 75, 100],
      { kind: 'segments', segments: pieces },
      {
        conductance: 1 / R,
        capacity: TAU / R,
        ambient: AMBIENT,
        start: AMBIENT,
      },
    );
    const first = AMBIENT + R * 300 * (1 - Math.exp(-0.5));
    expect(piecewise.temperature[1]).toBeCloseTo(first, 10);
    expect(piecewise.temperature[3]).toBeCloseTo(AMBIENT + R * 600 + (first - AMBIENT - R * 600) * Math.exp(-0.5), 10);
  });

  it('refuses a time after the last piece', () => {
    expect(() => heatingResponse([10], { kind: 'segments', segments: [{ power: 1, duration: 5 }] }, 1, 0)).toThrow(
      'time 10 s lies after the last piece of power, which ends at 5 s',
    );
  });
});

describe('the fit', () => {
  it('recovers time constant and resistance from a noise-free record', () => {
    const fit = fitLumpedHeating(time, course, { kind: 'sampled', power }, AMBIENT);
    expect(fit).toMatchObject({
      timeConstant: expect.closeTo(TAU, 4),
      thermalResistance: expect.closeTo(R, 8),
      startRise: expect.closeTo(5, 5),
    });
  });

  it('states standard errors that hold: intervals of ± 1.96 cover 95 % of 400 records, within their play', () => {
    const sparse = time.filter((_, i) => i % 10 === 0);
    const driven = { kind: 'sampled', power: sparse.map((t) => power[t] as number) } as const;
    const response = heatingResponse(sparse, driven, TAU, 0);
    const truth = sparse.map((t, i) => AMBIENT + R * (response[i] as number) + 5 * Math.exp(-t / TAU));
    const generator = seededGenerator(7);
    let [constants, resistances] = [0, 0];
    for (let record = 0; record < 400; record++) {
      const noisy = truth.map((one) => one + 2 * generator.normal());
      const fit = fitLumpedHeating(sparse, noisy, driven, AMBIENT);
      if (isNotEvaluated(fit)) throw new Error('not fitted');
      const { timeConstant, thermalResistance } = fit.standardErrors;
      if (Math.abs(fit.timeConstant - TAU) <= 1.96 * timeConstant) constants++;
      if (Math.abs((fit.thermalResistance ?? 0) - R) <= 1.96 * (thermalResistance ?? 0)) resistances++;
    }
    // Binomial(400, 0.95): mean 380, standard deviation 4.4.
    for (const covered of [constants, resistances]) expect(Math.abs(covered - 380)).toBeLessThan(3 * 4.4);
  });

  it.each<[string, number[], number[], Parameters<typeof fitLumpedHeating>[2], RegExp]>([
    ['three temperatures', [0, 1, 2], [20, 21, 22], undefined, /do not fix/],
    [
      'a record of one time constant',
      time.slice(0, 100),
      course.slice(0, 100),
      { kind: 'sampled', power },
      /lasts 99 s/,
    ],
    [
      'cooling alone',
      time,
      time.map((t) => AMBIENT + 50 * Math.exp(-t / TAU)),
      { kind: 'constant', power: 0 },
      /all cooling/,
    ],
  ])('is not made from %s', (_, at, temperature, given, why) => {
    const used = given?.kind === 'sampled' ? { ...given, power: power.slice(0, at.length) } : given;
    const fit = fitLumpedHeating(at, temperature, used, AMBIENT);
    expect(fit).toMatchObject({ notEvaluated: { because: expect.stringMatching(why) } });
  });
});

describe('the calculator', () => {
  it.each<[string, object, object]>([
    [
      'a forward question without a start',
      { power: 1, conductance: 1, capacity: 1 },
      { code: 'body.missing-field', pointer: '/start' },
    ],
    [
      'a fit with a conductance',
      { temperature: [1, 2], power: 1, conductance: 1 },
      { code: 'body.unknown-field', pointer: '/conductance' },
    ],
    [
      'a forward question with a power for each time',
      { power: [1, 2], conductance: 1, capacity: 1, start: 1 },
      { code: 'body.type', pointer: '/power' },
    ],
    ['times that go back', { time: [1, 0], power: 1, conductance: 1, capacity: 1, start: 1 }, { code: 'body.range' }],
  ])('refuses %s', (_, given, error) => {
    expect(compute({ method: 'lumped-heating', time: [0, 1], ambient: 20, ...given })).toMatchObject({ error });
  });
});

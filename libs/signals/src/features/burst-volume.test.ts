import { describe, expect, it } from 'vitest';
import { type ChannelReadings, onClock } from './channel-on-clock.js';
import { type Compliance, complianceOf } from './compliance.js';
import { pumped } from './pumped.js';
import { type WidthPoint, widthChange, widthPoint } from './rim-width.js';
import { storedGasEnergy } from './stored-energy.js';

const clock = (seconds: number, rate = 100) => Float64Array.from({ length: seconds * rate + 1 }, (_, i) => i / rate);
const channel = (time: Float64Array, of: (t: number) => number): ChannelReadings => ({
  channel: 'one',
  time,
  values: time.map(of),
});

describe('onClock', () => {
  it('runs straight between two readings, and says nothing across a gap or beyond the ends', () => {
    const slow = channel(Float64Array.of(1, 2, 3, 4, 9, 10), (t) => 10 * t);
    const onto = Float64Array.of(0.5, 1, 2.25, 6, 9.5, 10, 10.5);
    expect([...onClock(slow, onto, 2)]).toEqual([Number.NaN, 10, 22.5, Number.NaN, 95, 100, Number.NaN]);
  });
});

describe('pumped', () => {
  const time = clock(50);
  const bounds = { last: 5000, periods: 2, longest: 0.02, noise: 1 };
  // 20 kPa/s against 60 mL/min, a millilitre a second.
  const pressure = time.map((t) => 20 * t);

  it('gives volume and work of a straight loading by their closed forms', () => {
    const into = pumped(
      time,
      pressure,
      channel(time, () => 60),
      bounds,
    );
    expect(into.volume.at(-1)).toBeCloseTo(50, 9);
    // ∫ P dV = P_max V / 2: 1000 kPa · 50 mL / 2 = 1e6 Pa · 50e-6 m³ / 2.
    expect(into.work).toBeCloseTo(25, 9);
    expect(into.pressureTime).toBeCloseTo(25_000, 6);
    expect(into.missing).toEqual({ inAll: 0, underPressure: 0 });
    expect(into.knownThroughout(0, 5000)).toBe(true);
  });

  it('takes a flow that is read once a second on the straight line between its readings', () => {
    // Q = 6 t mL/min, P = 20 t kPa: ∫ P Q dt = 20 · 6 / 60 · 50³ / 3 kPa·mL.
    const into = pumped(
      time,
      pressure,
      channel(clock(50, 1), (t) => 6 * t),
      bounds,
    );
    expect(into.work).toBeCloseTo((20 * 0.1 * 50 ** 3) / 3 / 1000, 4);
  });

  it('begins where the flow is known, bridges nothing and counts what it left out', () => {
    const known = time.filter((t) => t >= 10 && !(t > 20 && t < 30));
    const into = pumped(
      time,
      pressure,
      channel(known, () => 60),
      bounds,
    );
    // 10 to 20 s and 30 to 50 s of 20 t kPa at 1 mL/s.
    expect(into.work).toBeCloseTo((20 * (400 - 100 + 2500 - 900)) / 2 / 1000, 6);
    expect(into.volume.at(-1)).toBeCloseTo(30, 6);
    expect(into.missing.inAll).toBeCloseTo(20, 6);
    // Below 1 kPa, for the first 0.05 s, the part counts as vented.
    expect(into.missing.underPressure).toBeCloseTo(19.95, 2);
    expect([into.knownThroughout(3000, 5000), into.knownThroughout(2900, 5000)]).toEqual([true, false]);
  });
});

describe('storedGasEnergy', () => {
  it.each([
    { absolute: 501.325, room: 101.325, volume: 2000 },
    { absolute: 2101.325, room: 101.325, volume: 1000 },
    { absolute: 150, room: 98, volume: 1800 },
  ])('is the work of the adiabatic expansion from $absolute to $room kPa', ({ absolute, room, volume }) => {
    // By integration: P V^1.4 stays, so W = ∫ P dV from V to V (P/p_a)^(1/1.4), Simpson's rule on a fine grid of ln V.
    const steps = 2000;
    const end = Math.log(absolute / room) / 1.4;
    const height = (x: number) => absolute * Math.exp(-1.4 * x) * volume * Math.exp(x);
    let sum = height(0) + height(end);
    for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * height((i * end) / steps);
    const { energy, perPressure } = storedGasEnergy(absolute, room, volume);
    expect(energy).toBeCloseTo((sum * end) / steps / 3 / 1000, 6);
    const [above, below] = [absolute + 0.01, absolute - 0.01].map((p) => storedGasEnergy(p, room, volume).energy);
    expect(perPressure).toBeCloseTo(((above as number) - (below as number)) / 0.02, 6);
  });

  it('is about 3 kJ for a litre at 20 bar, and nothing at the pressure of the room', () => {
    // ASME PCC-2, appendix 501-II, in its rounded form (from memory): 2.5 P V [1 − (p_a/P)^0.286].
    const rounded = 2.5 * 2101.325 * (1 - (101.325 / 2101.325) ** 0.286);
    expect(storedGasEnergy(2101.325, 101.325, 1000).energy / rounded).toBeCloseTo(1, 2);
    expect(storedGasEnergy(101.325, 101.325, 1000).energy).toBe(0);
  });
});

describe('complianceOf', () => {
  const pressure = Float64Array.from({ length: 1001 }, (_, i) => i);
  const bounds = { from: 0.1, to: 0.4, departure: 0.05 };
  // Straight with 0.002 mm/kPa up to 600 kPa, twice as much beyond, and 25 mm at no pressure.
  const bent = pressure.map((p) => 25 + 0.002 * p + (p > 600 ? 0.002 * (p - 600) : 0));

  it('finds where a line of two slopes has departed by 5 %', () => {
    const found = complianceOf(pressure, bent, { last: 1000, peak: 1000 }, bounds) as Compliance;
    expect(found).toMatchObject({ slope: expect.closeTo(0.002, 12), intercept: expect.closeTo(25, 9) });
    // 0.002 (P − 600) = 0.05 · 0.002 P at P = 600 / 0.95; straight between two samples, so exact to rounding of P there.
    expect(found.knee?.pressure).toBeCloseTo(600 / 0.95, 6);
  });

  it('has no knee where the line goes on, and where the part stiffens and comes back', () => {
    const straight = pressure.map((p) => 25 + 0.002 * p);
    const back = straight.map((y, p) => (p > 500 && p < 700 ? y - 0.2 : y));
    for (const growth of [straight, back])
      expect(complianceOf(pressure, growth, { last: 1000, peak: 1000 }, bounds)).toMatchObject({ knee: undefined });
  });

  it('says why where the line cannot be drawn', () => {
    const coarse = pressure.map((p) => (p < 500 ? 0 : 1000));
    expect(complianceOf(coarse, bent, { last: 1000, peak: 1000 }, bounds)).toMatchObject({
      notEvaluated: { because: 'fewer than 3 samples lie on the straight part of the loading' },
    });
    const falling = bent.map((y) => -y);
    expect(complianceOf(pressure, falling, { last: 1000, peak: 1000 }, bounds)).toMatchObject({
      notEvaluated: { because: expect.stringContaining('does not grow with the pressure') },
    });
  });
});

describe('widths', () => {
  const moments = { ventedUntil: 2, under: 40, ventedAgainFrom: 58 };
  const point = (name: string, grows: number, stays: number) =>
    widthPoint(
      { ...channel(clock(60, 1), (t) => (t < 2 ? 25 : t < 50 ? 25 + (grows * t) / 40 : 25 + stays)), channel: name },
      moments,
      2,
    ) as WidthPoint;
  const points = [point('rimWidth1', 0.3, 0.02), point('rimWidth2', 0.4, 0.08), point('rimWidth3', 0.2, 0.05)];
  const read = { when: 'as recorded', source: 'trace' as const };
  const changed = (change: 'growth' | 'set', of: 'largest' | 'mean') => widthChange({ change, of }, points, read);

  it('gives growth and set, the largest and the mean of the points', () => {
    expect(changed('growth', 'largest').value).toMatchObject({ value: expect.closeTo(0.4, 9) });
    expect(changed('growth', 'mean').value).toMatchObject({ value: expect.closeTo(0.3, 9) });
    expect(changed('set', 'largest').value).toMatchObject({ value: expect.closeTo(0.08, 9) });
    expect(changed('set', 'mean').value).toMatchObject({ value: expect.closeTo(0.05, 9) });
  });

  it('follows the sensor of the largest, and each of the mean by its share', () => {
    const [largest, mean] = [changed('growth', 'largest'), changed('growth', 'mean')];
    expect(['rimWidth1', 'rimWidth2', 'flow'].map((name) => largest.sensitivity?.(name))).toEqual([0, 1, undefined]);
    expect(mean.sensitivity?.('rimWidth1')).toBeCloseTo(1 / 3, 12);
  });

  it('says why with fewer than three points, and where no reading is near', () => {
    expect(widthChange({ change: 'growth', of: 'mean' }, points.slice(1), read).value).toMatchObject({
      notEvaluated: { because: 'widths were read at 2 points' },
    });
    const cut = { ...channel(Float64Array.of(0, 1, 2, 3), () => 25), channel: 'rimWidth1' };
    expect(
      widthChange({ change: 'growth', of: 'mean' }, [widthPoint(cut, moments, 2), ...points], read).value,
    ).toMatchObject({
      notEvaluated: { because: 'rimWidth1 has no reading near 40 s' },
    });
  });
});

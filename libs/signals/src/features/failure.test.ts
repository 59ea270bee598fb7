import { describe, expect, it } from 'vitest';
import { findEnding } from './failure.js';

const CRITERION = { fall: 0.1, window: 0.1, noise: 0.3 };

/** A record at 100 samples a second from a formula. */
function record(seconds: number, pressure: (time: number) => number) {
  const time = Float64Array.from({ length: seconds * 100 }, (_, i) => i / 100);
  return { time, pressure: time.map(pressure) };
}
const endingOf = (seconds: number, pressure: (time: number) => number) => {
  const made = record(seconds, pressure);
  return findEnding(made.time, made.pressure, CRITERION);
};

describe('findEnding', () => {
  it('finds the sample before a sudden fall and the one at which it is there', () => {
    expect(endingOf(12, (t) => (t < 10 ? 100 * t : 0))).toEqual({ ending: 'burst', before: 999, fallen: 1000 });
  });

  it('finds a fall spread over less than the window', () => {
    // From 1000 kPa at 10 s down by 2000 kPa/s: 10 % is lost after 50 ms.
    const found = endingOf(12, (t) => (t <= 10 ? 100 * t : Math.max(0, 1000 - 2000 * (t - 10))));
    expect(found).toEqual({ ending: 'burst', before: 1000, fallen: 1005 });
  });

  it('takes the first of two', () => {
    const found = endingOf(12, (t) => (t < 5 ? 100 * t : t < 10 ? 100 * (t - 5) : 0));
    expect(found).toMatchObject({ ending: 'burst', before: 499 });
  });

  it('calls a fall slower than the window, and faster than a leak, let down', () => {
    // 250 kPa/s from 1000 kPa: 10 % takes 0.4 s; between 99 % and 90 % the rate is 25 % a second.
    const found = endingOf(16, (t) => (t <= 10 ? 100 * t : Math.max(0, 1000 - 250 * (t - 10))));
    expect(found).toMatchObject({ ending: 'let down' });
    expect(found.ending === 'let down' && found.sharePerSecond).toBeCloseTo(0.25, 1);
  });

  it('calls a slow loss a leak', () => {
    // 5 kPa/s from 1000 kPa: half a percent a second.
    const found = endingOf(60, (t) => (t <= 10 ? 100 * t : 1000 - 5 * (t - 10)));
    expect(found).toMatchObject({ ending: 'leak' });
    expect(found.ending === 'leak' && found.sharePerSecond).toBeCloseTo(0.005, 4);
  });

  it('does not count the time of a hold as part of a slow fall', () => {
    const found = endingOf(140, (t) => (t <= 10 ? 100 * t : t <= 130 ? 1000 : Math.max(0, 1000 - 250 * (t - 130))));
    expect(found).toMatchObject({ ending: 'let down' });
  });

  it('says that the record ended where the pressure is still up', () => {
    expect(endingOf(10, (t) => 100 * t)).toEqual({ ending: 'record ended' });
  });

  it('is not misled by a sensor that drops out and comes back within a second', () => {
    const found = endingOf(12, (t) => (t >= 6 && t < 6.5 ? 0 : t < 10 ? 100 * t : 0));
    expect(found).toMatchObject({ ending: 'burst', before: 999 });
  });

  it('is not misled by noise round zero before the ramp', () => {
    const found = endingOf(12, (t) => (t < 2 ? Math.sin(977 * t) : t < 10 ? 100 * (t - 2) : 0));
    expect(found).toMatchObject({ ending: 'burst', before: 999 });
  });

  it('counts what was lost across a gap', () => {
    const { time, pressure } = record(12, (t) => (t < 10 ? 100 * t : 0));
    const kept = (_: number, i: number) => i < 950 || i > 1100;
    const found = findEnding(time.filter(kept), pressure.filter(kept), CRITERION);
    expect(found).toEqual({ ending: 'burst', before: 949, fallen: 950 });
  });
});

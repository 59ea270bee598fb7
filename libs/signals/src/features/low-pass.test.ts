import { describe, expect, it } from 'vitest';
import { gateSpeed } from './gate-speed.js';
import { lowPass } from './low-pass.js';

const RATE = 100_000;
const CUTOFF = 3000;

describe('lowPass', () => {
  // SciPy 1.17.1: b, a = butter(2, fd, fs=1e5) with tan(pi fd / fs) = tan(pi 3000 / fs) / (sqrt(2) - 1)^(1/4), then
  // lfilter forward and backward over an impulse among 4001 samples.
  it.each([
    [0, 0.08233807856660386],
    [5, 0.05137428693162146],
    [10, 0.0143845682605002],
    [20, -0.00354257896538042],
    [30, -0.00038252744947478],
  ])('answers an impulse %i samples away on both sides alike, as SciPy does', (away, value) => {
    const impulse = new Float64Array(4001);
    impulse[2000] = 1;
    const out = lowPass(impulse, 1 / RATE, CUTOFF);
    expect(out[2000 + away]).toBeCloseTo(value, 12);
    expect(out[2000 - away]).toBeCloseTo(value, 12);
  });

  // Winter (2009), 3.4.4.2: at the cut-off half of the power is left after both passes.
  it.each([
    [CUTOFF, Math.SQRT1_2],
    [1000, gain(1000)],
    [10_000, gain(10_000)],
  ])('leaves of a sine of %i Hz its share, and shifts nothing', (frequency, share) => {
    const wave = Float64Array.from({ length: 20_001 }, (_, i) =>
      Math.cos((2 * Math.PI * frequency * (i - 10_000)) / RATE),
    );
    expect(lowPass(wave, 1 / RATE, CUTOFF)[10_000]).toBeCloseTo(share, 6);
  });

  it('keeps a record that stands still, to its ends', () => {
    const still = new Float64Array(50).fill(7);
    for (const value of lowPass(still, 1 / RATE, CUTOFF)) expect(value).toBeCloseTo(7, 9);
  });

  it('refuses a cut-off at or above half of the sampling rate', () => {
    expect(() => lowPass(new Float64Array(10), 1 / RATE, 50_000)).toThrow(
      /below half of the sampling rate, .* got 50000 Hz/,
    );
  });
});

/** 1 / (1 + (√2 − 1)(w/w_c)⁴), of the squared magnitude of a two-pole Butterworth filter (Butterworth 1930). */
function gain(frequency: number): number {
  const ratio = Math.tan((Math.PI * frequency) / RATE) / Math.tan((Math.PI * CUTOFF) / RATE);
  return 1 / (1 + (Math.SQRT2 - 1) * ratio ** 4);
}

describe('gateSpeed', () => {
  // Uniformly accelerated motion worked backwards: edges 70 mm and 20 mm above contact, 3 m/s at contact.
  it('recovers the speed at contact from the time between the edges', () => {
    const [g, speed] = [9.81, 3];
    const at = (above: number) => Math.sqrt(speed ** 2 - 2 * g * above);
    const seconds = (at(0.02) - at(0.07)) / g;
    expect(gateSpeed(0.05, seconds, 0.02, g)).toBeCloseTo(speed, 12);
  });
});

import { describe, expect, it } from 'vitest';
import { findFlatTop } from './flat-top.js';
import { longestStay } from './holds.js';
import { pressureTime } from './pressure-time.js';
import { type Ramp, rampOf, shareInBand } from './ramp.js';
import { traceOutline } from './trace-outline.js';
import { firstAt, ventedZero } from './vented-zero.js';

const clock = (seconds: number, rate = 100) => Float64Array.from({ length: seconds * rate + 1 }, (_, i) => i / rate);

describe('ventedZero', () => {
  it('is the median, unmoved by a spike, with the noise from the median absolute deviation', () => {
    // 1, 2, ..., 9: median 5, median absolute deviation 2, and 2 / Φ⁻¹(3/4) = 2.965204.
    const time = Float64Array.from({ length: 9 }, (_, i) => i);
    const values = Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8, 900);
    const zero = ventedZero(time, values, 0, 9);
    expect(zero).toMatchObject({ zero: 5, samples: 9 });
    expect('noise' in zero && zero.noise).toBeCloseTo(2.965204437011, 9);
  });

  it('says why where there are too few samples', () => {
    expect(ventedZero(clock(1, 1), clock(1, 1), 0, 2)).toMatchObject({
      notEvaluated: { because: 'only 2 samples lie in the vented part of the record' },
    });
  });
});

describe('firstAt', () => {
  it('finds the first sample at or after a time', () => {
    const time = Float64Array.of(0, 1, 2, 2.5);
    expect([-1, 0, 1.5, 2, 3].map((at) => firstAt(time, at))).toEqual([0, 0, 2, 2, 4]);
  });
});

describe('rampOf', () => {
  const time = clock(60);

  it('gives the rate of a straight ramp, and the times of 10 and 90 %', () => {
    const pressure = time.map((t) => Math.max(0, 25 * (t - 4)));
    const ramp = rampOf(time, pressure, 1400, []) as Ramp;
    expect(ramp).toMatchObject({ by: 'crossings' });
    expect(ramp.rate).toBeCloseTo(25, 9);
    expect(ramp.t10).toBeCloseTo(4 + 140 / 25, 9);
    expect(ramp.t90).toBeCloseTo(4 + 1260 / 25, 9);
    expect(ramp.segments[0]?.slope).toBeCloseTo(25, 9);
  });

  it('begins at the last crossing of 10 %, not the first', () => {
    // Up to 200 at 4 s, back to 0 at 8 s, then straight on: 10 % of 1000 is crossed at 2, 6 and 12 s.
    const pressure = time.map((t) => (t < 4 ? 50 * t : t < 8 ? 200 - 50 * (t - 4) : 25 * (t - 8)));
    expect(rampOf(time, pressure, 1000, [])).toMatchObject({ t10: expect.closeTo(12, 9), t90: expect.closeTo(44, 9) });
  });

  it('leaves holds out and takes the mean slope of the parts between them', () => {
    // 50 kPa/s to 500 kPa at 10 s, held to 40 s, then 20 kPa/s.
    const pressure = time.map((t) => (t < 10 ? 50 * t : t < 40 ? 500 : 500 + 20 * (t - 40)));
    const ramp = rampOf(time, pressure, 900, [{ entry: 10, exit: 40 }]) as Ramp;
    expect(ramp.by).toBe('segments');
    expect(ramp.segments.map(({ slope }) => slope)).toEqual([expect.closeTo(50, 9), expect.closeTo(20, 9)]);
    expect(ramp.rate).toBeCloseTo(35, 9);
    // 90 kPa at 1.8 s, 810 kPa at 55.5 s.
    expect(rampOf(time, pressure, 900, [{ entry: 10, exit: 40 }], 'crossings')).toMatchObject({
      by: 'crossings',
      rate: expect.closeTo(720 / (55.5 - 1.8), 9),
    });
  });

  it('by parts without a hold is the least squares slope of the one part', () => {
    const pressure = time.map((t) => 0.5 * t * t);
    const ramp = rampOf(time, pressure, 1800, [], 'parts') as Ramp;
    expect(ramp.by).toBe('segments');
    // The least squares line over a parabola has the slope in the middle of its stretch.
    expect(ramp.rate).toBeCloseTo((ramp.t10 + ramp.t90) / 2, 1);
  });

  it('is not evaluated where the record begins under pressure', () => {
    expect(
      rampOf(
        time,
        time.map(() => 1000),
        1000,
        [],
      ),
    ).toMatchObject({
      notEvaluated: { because: expect.stringContaining('begins above 90 %') },
    });
    expect(
      rampOf(
        time,
        time.map((t) => 500 + 20 * t),
        1000,
        [],
      ),
    ).toMatchObject({
      notEvaluated: { because: expect.stringContaining('begins above 10 %') },
    });
  });
});

describe('shareInBand', () => {
  it('counts the time during which the slope was inside', () => {
    // 0.1 to 0.9 of 1000 kPa: 100 to 500 at 40 kPa/s (10 s), then 500 to 900 at 10 kPa/s (40 s).
    const time = clock(70);
    const pressure = time.map((t) => (t < 12.5 ? 40 * t : 500 + 10 * (t - 12.5)));
    const ramp = rampOf(time, pressure, 1000, []) as Ramp;
    const { share, slowest, fastest } = shareInBand(time, pressure, ramp, { from: 30, to: 50 });
    expect(share).toBeCloseTo(0.2, 9);
    expect([slowest, fastest]).toEqual([expect.closeTo(10, 6), expect.closeTo(40, 6)]);
  });
});

describe('longestStay', () => {
  const band = { low: 913, high: 958.65 };

  it('runs from crossing to crossing of the edges', () => {
    // 20 kPa/s to 920 kPa, 60 s there, on with 20 kPa/s: 60 + (920 − 913) / 20 + (958.65 − 920) / 20 s inside.
    const time = clock(150);
    const pressure = time.map((t) => (t < 46 ? 20 * t : t < 106 ? 920 : 920 + 20 * (t - 106)));
    const found = longestStay(time, pressure, band);
    expect(found?.seconds).toBeCloseTo(62.2825, 9);
    expect(found?.entry).toBeCloseTo(45.65, 9);
    expect(found).toMatchObject({ recordEnded: false });
    expect(found?.min).toBeGreaterThanOrEqual(913);
    expect(found?.max).toBeLessThanOrEqual(958.65);
  });

  const dip = (seconds: number) => (t: number) => (t >= 20 && t < 20 + seconds ? 900 : 930);
  it('goes on over a departure of a second and ends with a longer one', () => {
    const time = clock(60);
    expect(longestStay(time, time.map(dip(0.9)), band)?.seconds).toBeCloseTo(60, 9);
    const cut = longestStay(time, time.map(dip(1.5)), band);
    expect(cut?.seconds).toBeCloseTo(60 - 21.5, 1);
    expect(cut).toMatchObject({ recordEnded: true });
  });

  it('does not count on what a gap of more than a second hides', () => {
    const time = clock(60).filter((t) => t < 10 || t > 12);
    const found = longestStay(
      time,
      time.map(() => 930),
      band,
    );
    expect(found?.entry).toBeCloseTo(12.01, 9);
    expect(found?.seconds).toBeCloseTo(47.99, 9);
  });

  it('gives mean and slope, and nothing where the band was never reached', () => {
    const time = clock(10);
    const found = longestStay(
      time,
      time.map((t) => 930 + 2 * t),
      band,
    );
    expect(found).toMatchObject({ mean: expect.closeTo(940, 9), slope: expect.closeTo(2, 9), min: 930, max: 950 });
    expect(longestStay(time, time, band)).toBeUndefined();
  });
});

describe('pressureTime', () => {
  it('of a straight ramp is half its height times its length', () => {
    const time = clock(40);
    expect(
      pressureTime(
        time,
        time.map((t) => 25 * t),
        time.length - 1,
      ),
    ).toBeCloseTo((25 * 40 * 40) / 2, 6);
  });
});

describe('findFlatTop', () => {
  const time = clock(40);
  const span = { from: 0, to: time.length };
  const find = (pressure: Float64Array, fullScale?: number) =>
    findFlatTop(time, pressure, Math.max(...pressure), span, fullScale);

  it('finds three equal readings at full scale', () => {
    const pressure = time.map((t) => Math.min(1000, 25.3 * t));
    expect(find(pressure, 1000)).toMatchObject({ at: 'full scale', value: 1000 });
  });

  it('finds a top cut off below full scale', () => {
    const pressure = time.map((t) => Math.min(700, 25.3 * t));
    expect(find(pressure, 1000)).toMatchObject({ at: 'below full scale', value: 700, to: 40 });
  });

  it('leaves the coarse steps of a converter on a slow rise alone', () => {
    const pressure = time.map((t) => Math.floor(2 * t));
    expect(find(pressure, 1000)).toBeUndefined();
  });

  it('leaves two equal readings at the top alone', () => {
    const pressure = time.map((t) => 25.3 * t);
    pressure[pressure.length - 2] = pressure.at(-1) as number;
    expect(find(pressure, 1012)).toBeUndefined();
  });
});

describe('traceOutline', () => {
  const time = clock(1000, 10);
  it('keeps every peak and the order of time within twice the buckets', () => {
    const values = time.map((t) => Math.sin(t));
    values[1234] = 50;
    values[7777] = -60;
    const outline = traceOutline({ time, values }, 300);
    expect(outline.values.length).toBe(600);
    expect(Math.max(...outline.values)).toBe(50);
    expect(Math.min(...outline.values)).toBe(-60);
    expect(outline.time[outline.values.indexOf(50)]).toBe(time[1234]);
    expect([...outline.time]).toEqual([...outline.time].sort((a, b) => a - b));
  });

  it('gives a short trace back as it is, and refuses no buckets at all', () => {
    const short = { time: time.slice(0, 20), values: time.slice(0, 20) };
    expect(traceOutline(short, 10)).toEqual(short);
    expect(() => traceOutline(short, 0)).toThrow('at least 1; got 0');
  });
});

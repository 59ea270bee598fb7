import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../papers/svg.js';
import { type TracePlotInput, tracePlot, traceTimeAt } from './trace-plot.js';

const RATE = 10;
const seconds = Array.from({ length: 100 * RATE + 1 }, (_, i) => i / RATE);
/** A ramp of 22 kPa/s from 10 s, burst at 92 s. */
const pressure = seconds.map((t) => (t < 10 || t > 92 ? 0 : 22 * (t - 10)));
const room = seconds.map((t) => 22.5 + t / 1000);

const run: TracePlotInput = {
  title: 'Run 41, specimen D42-05',
  alt: 'Rim pressure rises evenly from 10 s and falls at once at 92 s.',
  caption: '',
  channels: [
    {
      channel: 'rimPressure',
      title: 'Rim pressure',
      unit: 'kPa',
      reference: 'gauge',
      samples: { time: seconds, values: pressure },
    },
    {
      channel: 'pumpPressure',
      title: 'Pump pressure',
      unit: 'kPa',
      reference: 'gauge',
      samples: { time: seconds, values: pressure },
    },
    { channel: 'roomTemperature', title: 'Room temperature', unit: 'Cel', samples: { time: seconds, values: room } },
  ],
  events: [
    { name: '10 %', time: 18.2, value: 180.4, channel: 'rimPressure' },
    { name: '90 %', time: 83.8, value: 1623.6, channel: 'rimPressure' },
    { name: 'burst', time: 92, value: 1804, channel: 'rimPressure' },
  ],
};

describe('tracePlot', () => {
  const scene = tracePlot(run);
  const events = scene.marks.flatMap((mark) => (mark.mark === 'dot' && mark.part === 'event' ? [mark.at] : []));
  const lines = scene.marks.flatMap((mark) => (mark.mark === 'line' && mark.part === 'channel' ? [mark] : []));
  const curves = run.channels.flatMap(({ title }) => lines.filter(({ note }) => note === title));

  it('puts each event where the curve is, on one scale of time and one of value', () => {
    const [ten, ninety, burst] = events;
    if (!ten || !ninety || !burst) throw new Error('an event is missing');
    expect((ninety[0] - ten[0]) / (burst[0] - ten[0])).toBeCloseTo((83.8 - 18.2) / (92 - 18.2), 6);
    expect((ninety[1] - ten[1]) / (burst[1] - ten[1])).toBeCloseTo((1623.6 - 180.4) / (1804 - 180.4), 6);
    const nearest = Math.min(...(curves[0]?.points ?? []).map(([x, y]) => Math.hypot(x - burst[0], y - burst[1])));
    expect(nearest).toBeLessThan(2);
  });

  it('shares a panel between channels of one unit and gives another unit its own', () => {
    const titles = scene.marks.flatMap((mark) => (mark.mark === 'text' && /kPa|°C/.test(mark.text) ? [mark.text] : []));
    expect(titles).toEqual(['kPa (gauge)', 'Room temperature, °C']);
    const tops = curves.map(({ points }) => Math.min(...points.map(([, y]) => y)));
    expect(tops[0]).toBe(tops[1]);
    expect(tops[2]).toBeGreaterThan(Math.max(...(curves[0]?.points ?? []).map(([, y]) => y)));
  });

  it('tells channels of a panel apart by ink and names them in a key', () => {
    expect(curves.map(({ stroke }) => stroke.ink)).toEqual(['ink', 'petrol', 'ink']);
    const words = scene.marks.flatMap((mark) => (mark.mark === 'text' && mark.part === 'key' ? [mark.text] : []));
    expect(words).toEqual(['Rim pressure', 'Pump pressure']);
  });

  it('refuses an event on a channel it does not show, and names both', () => {
    const stray = { ...run, events: [{ name: 'leak', time: 3, value: 1, channel: 'flow' }] };
    expect(() => tracePlot(stray)).toThrow('Event "leak" lies on channel flow, which this figure does not show.');
  });

  it('refuses a channel whose times and values do not belong together', () => {
    const [one] = run.channels;
    if (!one) throw new Error('no channel');
    const torn = { ...one, samples: { time: [0, 1], values: [5] } };
    expect(() => tracePlot({ ...run, channels: [torn], events: [] })).toThrow('rimPressure has 2 times and 1 values');
  });

  it('refuses a fifth series in one panel', () => {
    const [one] = run.channels;
    if (!one) throw new Error('no channel');
    expect(() => tracePlot({ ...run, channels: [one, one, one, one, one], events: [] })).toThrow('at most 4 series');
  });

  it('is drawn as in the stored picture', async () => {
    await expect(sceneToSvg(scene, { theme: 'light' })).toMatchFileSnapshot('./pictures/trace-plot.svg');
  });
});

describe('traceTimeAt', () => {
  it('finds the moment that an event is drawn at, and stops at both ends of the record', () => {
    const drawn = tracePlot(run).marks.flatMap((mark) =>
      mark.part === 'event' && mark.mark === 'dot' ? [mark.at[0]] : [],
    );
    expect(drawn.map((x) => traceTimeAt(run, x))).toEqual(run.events.map(({ time }) => expect.closeTo(time, 9)));
    expect(traceTimeAt(run, -50)).toBe(0);
    expect(traceTimeAt(run, 5000)).toBe(100);
  });
});

import { describe, expect, it } from 'vitest';
import { FIGURE_WIDTH, type Scene } from '../scene.js';
import { textWidth } from '../text-width.js';
import { chanceCurves } from './chance-curves.js';
import { comparison } from './comparison.js';
import { type MarginStripInput, marginStrip } from './margin-strip.js';
import { probabilityPlot } from './probability-plot.js';
import { tracePlot } from './trace-plot.js';

/** Everything inside the picture, no text on another: what a reader of a small print needs. */
function expectTidy(scene: Scene): void {
  const boxes = scene.marks.flatMap((mark) => {
    if (mark.mark !== 'text') return [];
    const width = textWidth(mark.text, mark.size, mark.strong);
    const left = mark.at[0] - { start: 0, middle: width / 2, end: width }[mark.anchor];
    return [{ text: mark.text, left, right: left + width, top: mark.at[1] - mark.size * 0.7, bottom: mark.at[1] }];
  });
  for (const [i, a] of boxes.entries()) {
    expect(a.left, a.text).toBeGreaterThanOrEqual(-0.01);
    expect(a.right, a.text).toBeLessThanOrEqual(scene.width + 0.01);
    expect(a.top, a.text).toBeGreaterThanOrEqual(-0.01);
    expect(a.bottom, a.text).toBeLessThanOrEqual(scene.height);
    for (const b of boxes.slice(i + 1)) {
      const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
      expect(apart, `"${a.text}" and "${b.text}" overlap`).toBe(true);
    }
  }
}

const words = { title: 'Burst pressure of one lot', alt: 'Invented numbers.', caption: '' };
const quantity = {
  title: 'Burst pressure',
  unit: 'kPa',
  reference: 'gauge',
  decimals: 0,
  second: { unit: '[psi]', decimals: 0 },
} as const;
const limits = [
  { label: 'Federation minimum OCF-B1 rev. 2', external: true, value: 1500, conforms: 'at or above' },
  { label: 'Internal floor SW-F3 rev. 1', external: false, value: 1620, conforms: 'at or above' },
] as const;

/** Weibull quantiles of shape 18 and scale 1 950 at (i - 0.5) / n: a crowd without chance. */
const values = (n: number) => Array.from({ length: n }, (_, i) => 1950 * (-Math.log1p(-(i + 0.5) / n)) ** (1 / 18));

function strip(n: number, other: Partial<MarginStripInput> = {}): MarginStripInput {
  const specimens = values(n).map((value, i) => ({
    label: `D42-${i}`,
    value: { kind: i % 5 === 4 ? ('atLeast' as const) : ('exact' as const), value },
    inClaim: i % 7 !== 6,
  }));
  const bounds = [{ label: 'Lower bound', value: 1578, estimate: 1712, against: 1500 }];
  return { ...words, quantity, specimens, limits, bounds, ...other };
}

describe.each(Object.entries(FIGURE_WIDTH))('at the %s width', (_, width) => {
  it.each([
    ['no specimen', strip(0)],
    ['one specimen', strip(1, { bounds: [] })],
    ['one value and nothing else', strip(1, { limits: [], bounds: [] })],
    ['eight specimens', strip(8)],
    [
      'a bound below its limit',
      strip(8, { bounds: [{ label: 'Lower bound', value: 1480, estimate: 1600, against: 1500 }] }),
    ],
    ['300 specimens', strip(300)],
    ['3 000 specimens', strip(3000)],
    ['two limits at one place', strip(8, { limits: [...limits, ...limits] })],
  ])('the margin strip is tidy with %s', (_, input) => {
    expectTidy(marginStrip({ ...input, width }));
  });

  it.each([1, 2, 8, 30, 300])('the probability plot is tidy with %i broken', (n) => {
    const failures = values(n).map((value, i) => ({ label: `D42-${i}`, value, fraction: (i + 0.7) / (n + 0.4) }));
    const atLeast = [{ label: 'D42-90', value: 1790 }];
    const bound = { label: 'Lower bound', value: 1578, fraction: 0.1 };
    const fit = { distribution: 'weibull', shape: 18, scale: 1950 } as const;
    expectTidy(probabilityPlot({ ...words, quantity, failures, atLeast, fit, bound, limits, width }));
    for (const own of [
      { distribution: 'normal', mean: 1850, sd: 110 },
      { distribution: 'lognormal', median: 1850, logSd: 0.06 },
    ] as const)
      expectTidy(
        probabilityPlot({
          ...words,
          quantity,
          failures,
          atLeast,
          distribution: own.distribution,
          fit: own,
          bound,
          limits,
          width,
        }),
      );
  });

  it.each([
    [1, 1, 'X-1'],
    [3, 2, 'an item with a long name of its own'],
    [40, 30, 'X'],
    [200, 200, 'item'],
  ])('the comparison is tidy with %i lots and %i items', (lots, items, name) => {
    const known = Array.from({ length: lots }, (_, index) => ({
      label: `D42-${2400 + index}`,
      values: strip(5).specimens.map((one) => ({ ...one, label: `${index} ${one.label}` })),
    }));
    const asked = Array.from({ length: items }, (_, index) => {
      const label = `${name} ${index}`;
      return { label, values: [{ label, value: { kind: 'atMost' as const, value: 1400 + index } }] };
    });
    const axis = {
      quantity,
      reference: { title: 'reference', lanes: known },
      items: { title: 'items', lanes: asked },
      bounds: [
        { side: 'lower' as const, value: 1610, level: '99.2 %' },
        { side: 'upper' as const, value: 2210, level: '99.2 %' },
      ],
      limits,
    };
    expectTidy(comparison({ ...words, axes: [axis], width }));
    expectTidy(comparison({ ...words, axes: [axis, { ...axis, bounds: [], limits: [] }], width }));
  });

  it.each([0.02, 0.1, 0.6])('the curves of chances are tidy up to a share of %f', (upTo) => {
    const points = [0, 0.01, 0.1, 1].map((share) => ({ share, chance: (1 - share) ** 8 }));
    const curves = [
      'zero failures (1 299)',
      'failures at most 20 (1 046)',
      'zero failures, raised load (999)',
      'staircase (40)',
    ];
    const edge = { label: 'what the claim denies', share: upTo / 2 };
    expectTidy(chanceCurves({ ...words, curves: curves.map((label) => ({ label, points })), edge, upTo, width }));
  });

  it.each([0.5, 20, 3600])(
    'the trace plot is tidy when its events are close together and it lasts %f s',
    (duration) => {
      const time = Array.from({ length: 1000 }, (_, i) => (i * duration) / 999);
      const pressure = time.map((t) => (1900 * t) / duration);
      const event = (name: string, share: number) => ({
        name,
        time: share * duration,
        value: 1900 * share,
        channel: 'rimPressure',
      });
      const scene = tracePlot({
        ...words,
        channels: [
          {
            channel: 'rimPressure',
            title: 'Rim pressure',
            unit: 'kPa',
            reference: 'gauge',
            samples: { time, values: pressure },
          },
          {
            channel: 'roomTemperature',
            title: 'Room temperature',
            unit: 'Cel',
            samples: { time, values: time.map(() => 22.5) },
          },
        ],
        events: [event('10 %', 0.1), event('90 %', 0.9), event('burst 1 899 kPa', 0.999), event('failure found', 1)],
        width,
      });
      expectTidy(scene);
    },
  );
});

import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../papers/svg.js';
import { FIGURE_WIDTH, type Mark, type Scene } from '../scene.js';
import { type ProbabilityPlotInput, probabilityPlot } from './probability-plot.js';

/** Quantiles of a Weibull distribution of shape 18 and scale 1 950: F⁻¹(p) = η (-ln(1 - p))^(1/β). */
const quantile = (p: number) => 1950 * (-Math.log1p(-p)) ** (1 / 18);

const lot: ProbabilityPlotInput = {
  title: 'Weibull probability plot of lot 2407',
  alt: 'Seven broken specimens lie close to a straight line.',
  caption: '',
  quantity: {
    title: 'Burst pressure',
    unit: 'kPa',
    reference: 'gauge',
    decimals: 0,
    second: { unit: '[psi]', decimals: 0 },
  },
  failures: [0.1, 0.23, 0.36, 0.5, 0.64, 0.77, 0.9].map((fraction, i) => ({
    label: `D42-0${i}`,
    value: quantile(fraction),
    fraction,
  })),
  atLeast: [{ label: 'D42-08', value: 1790 }],
  fit: { distribution: 'weibull', shape: 18, scale: 1950 },
  band: {
    label: '95 % confidence limits',
    limits: [0.01, 0.05, 0.1, 0.3, 0.6, 0.9, 0.99].map((fraction) => ({
      fraction,
      lower: quantile(fraction) * 0.94,
      upper: quantile(fraction) * 1.05,
    })),
  },
  bound: { label: 'Lower bound', value: 1578, fraction: 0.1 },
  limits: [
    { label: 'Federation minimum OCF-B1 rev. 2', value: 1500, external: true, conforms: 'at or above' },
    { label: 'Internal floor SW-F3 rev. 1', value: 1620, external: false, conforms: 'at or above' },
  ],
};

const dots = (scene: Scene) =>
  scene.marks.flatMap((mark) => (mark.mark === 'dot' && mark.part === 'failure' ? [mark.at] : []));
const line = (scene: Scene, part: string) => {
  const found = scene.marks.find((mark) => mark.part === part);
  if (found?.mark !== 'line') throw new Error(`no ${part}`);
  return found.points;
};
const heightOfTick = (scene: Scene, percent: string) => {
  const tick = scene.marks.find(
    (mark): mark is Extract<Mark, { mark: 'text' }> => mark.mark === 'text' && mark.text === percent,
  );
  if (!tick) throw new Error(`no tick ${percent}`);
  return tick.at[1] - 7 * 0.36;
};

describe('probabilityPlot', () => {
  const scene = probabilityPlot(lot);
  const [start, end] = line(scene, 'fitted line');
  if (!start || !end) throw new Error('no line');
  const onLineAt = (x: number) => start[1] + ((x - start[0]) * (end[1] - start[1])) / (end[0] - start[0]);

  // A Weibull distribution is a straight line on these scales (Weibull 1951, J. Appl. Mech. 18, 293-297; the paper's plot).
  it('puts exact quantiles of a Weibull distribution on one straight line, the fitted one', () => {
    for (const [x, y] of dots(scene)) expect(y).toBeCloseTo(onLineAt(x), 6);
  });

  // F(η) = 1 - exp(-1) = 0.632 for every shape, by the definition of the scale.
  it('meets 63.2 % at the scale', () => {
    const [first, , , middle] = dots(scene);
    if (!first || !middle) throw new Error('no dots');
    // x is linear in ln(value): the place of 1 950 follows from two dots.
    const perLog = (middle[0] - first[0]) / Math.log(quantile(0.5) / quantile(0.1));
    const xOfScale = first[0] + perLog * Math.log(1950 / quantile(0.1));
    expect(onLineAt(xOfScale)).toBeCloseTo(heightOfTick(scene, '63.2'), 1);
  });

  it('draws the bound at its value and share, from the tip to the fitted line', () => {
    const wedge = scene.marks.find((mark) => mark.part === 'bound');
    if (wedge?.mark !== 'area') throw new Error('no wedge');
    const [tip, corner] = wedge.points;
    const [tenth] = dots(scene);
    expect(tip?.[1]).toBeCloseTo(heightOfTick(scene, '10'), 6);
    expect(corner?.[0]).toBeCloseTo(tenth?.[0] ?? 0, 6);
    expect(tip?.[0]).toBeLessThan(tenth?.[0] ?? 0);
  });

  it('draws the wedge from an estimate of its own where it is given one', () => {
    const own = probabilityPlot({
      ...lot,
      bound: { label: 'Lower bound', value: 1578, fraction: 0.1, estimate: quantile(0.23) },
    });
    const wedge = own.marks.find((mark) => mark.part === 'bound');
    if (wedge?.mark !== 'area') throw new Error('no wedge');
    expect(wedge.points[1]?.[0]).toBeCloseTo(dots(own)[1]?.[0] ?? 0, 6);
  });

  it('shows "at least" under the axis of shares, as a tick with an arrow, never as a dot', () => {
    const [tick] = scene.marks.filter((mark) => mark.part === 'at least');
    expect(tick?.note).toBe('D42-08: at least 1 790 kPa (260 psi)');
    expect(dots(scene)).toHaveLength(7);
  });

  it('draws what it is given and no more: two points without fit, band or bound', () => {
    const { fit: _, band: __, bound: ___, ...rest } = lot;
    const bare = probabilityPlot({ ...rest, failures: lot.failures.slice(0, 2), atLeast: [] });
    for (const part of ['fitted line', 'band', 'bound', 'at least'])
      expect(bare.marks.some((mark) => mark.part === part)).toBe(false);
  });

  it('clips the line where a wide scatter would leave the picture', () => {
    const wide = probabilityPlot({
      ...lot,
      fit: { distribution: 'weibull', shape: 1.2, scale: 1950 },
      width: FIGURE_WIDTH.narrow,
    });
    for (const [x, y] of line(wide, 'fitted line')) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(wide.width);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(wide.height);
    }
  });

  it('is drawn as in the stored picture', async () => {
    await expect(sceneToSvg(scene, { theme: 'light' })).toMatchFileSnapshot('./pictures/probability-plot-weibull.svg');
  });

  // By definition of the scales: the quantile of a normal distribution at 50 % is its mean, of a lognormal one its median.
  it.each([
    ['normal', { distribution: 'normal', mean: 1850, sd: 110 }, (z: number) => 1850 + 110 * z],
    ['lognormal', { distribution: 'lognormal', median: 1850, logSd: 0.06 }, (z: number) => 1850 * Math.exp(0.06 * z)],
  ] as const)(
    'puts exact quantiles of a %s distribution on one straight line, and draws it as stored',
    async (name, fit, at) => {
      const { fit: _, band: __, ...rest } = lot;
      // Φ⁻¹ of 0.1, 0.25, 0.5, 0.75 and 0.9 (tabled in many handbooks, from memory).
      const tabled = [-1.2815515655, -0.6744897502, 0, 0.6744897502, 1.2815515655];
      const failures = [0.1, 0.25, 0.5, 0.75, 0.9].map((fraction, index) => ({
        label: `D42-0${index}`,
        value: at(tabled[index] ?? 0),
        fraction,
      }));
      const limits = failures.map(({ value, fraction }) => ({ fraction, lower: value * 0.95, upper: value * 1.05 }));
      const band = { label: '95 % confidence limits', limits };
      const own = probabilityPlot({ ...rest, distribution: name, fit, failures, band });
      const [from, to] = line(own, 'fitted line');
      if (!from || !to) throw new Error('no line');
      for (const [x, y] of dots(own))
        expect(y).toBeCloseTo(from[1] + ((x - from[0]) * (to[1] - from[1])) / (to[0] - from[0]), 5);
      expect(dots(own)[2]?.[1]).toBeCloseTo(heightOfTick(own, '50'), 6);
      await expect(sceneToSvg(own, { theme: 'light' })).toMatchFileSnapshot(`./pictures/probability-plot-${name}.svg`);
    },
  );
});

import { describe, expect, it } from 'vitest';
import { seededGenerator } from '../random/generator.js';
import { chartConstants } from './chart-constants.js';
import { cusumChart } from './cusum-chart.js';
import { ewmaChart } from './ewma-chart.js';
import { individualsChart } from './individuals-chart.js';
import { runLength } from './run-length.js';

describe('chartConstants', () => {
  // Harter (1960), Ann. Math. Statist. 31, 1122-1131 (from memory): d2 of 100 is 5.01519, of 1000 6.48287.
  it.each([
    [100, 5.01519],
    [1000, 6.48287],
  ])('knows the mean range of %d values', (n, d2) => {
    expect(chartConstants(n).d2).toBeCloseTo(d2, 5);
  });

  it('agrees with the closed forms for the range of two and three', () => {
    expect(chartConstants(3).d2).toBeCloseTo(3 / Math.sqrt(Math.PI), 13);
    // Variance of the range of three (Jones 1948, Biometrika 35, 270-273, from memory): 2 - 9 / pi + 3 sqrt 3 / pi.
    expect(chartConstants(3).d3).toBeCloseTo(Math.sqrt(2 - 9 / Math.PI + (3 * Math.sqrt(3)) / Math.PI), 11);
  });
});

describe('individualsChart', () => {
  it('calls out the value that lies outside, and the step to it', () => {
    const steady = [10, 11, 10, 9, 10, 11, 10, 9, 10, 11, 10, 9, 10, 11];
    const found = individualsChart([...steady, 25, 10]);
    expect(found).toMatchObject({ signals: [14], movingRangeSignals: [14, 15] });
  });

  it('takes a target and a sigma that are known', () => {
    expect(individualsChart([5], { target: 4, sigma: 0.3 })).toMatchObject({
      centre: 4,
      limits: [expect.closeTo(3.1, 12), expect.closeTo(4.9, 12)],
      movingRangeMean: { notEvaluated: {} },
      signals: [0],
    });
  });

  it.each([
    [[], 'no values'],
    [[5], 'no neighbour'],
    [[5, 5, 5], 'do not differ'],
  ])('says why %j gives no chart', (values, because) => {
    expect(individualsChart(values)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });
});

describe('ewmaChart and cusumChart', () => {
  const values = [3, 5, 4, 6, 9];

  it('is a chart of single values where the newest has all the weight', () => {
    const found = ewmaChart(values, { target: 4, sigma: 1, lambda: 1, width: 3 });
    expect(found).toMatchObject({ points: values, limits: values.map(() => [1, 7]), signals: [4] });
  });

  it('sees up what it sees down in the mirror', () => {
    const up = cusumChart(values, { target: 4, sigma: 2, k: 0.5, h: 1 });
    const down = cusumChart(
      values.map((value) => -value),
      { target: -4, sigma: 2, k: 0.5, h: 1 },
    );
    if ('notEvaluated' in up || 'notEvaluated' in down) throw new Error('values were given');
    expect(down.lower).toEqual(up.upper);
    expect(down.signals).toEqual(up.signals);
    expect(up.upper).toEqual([0, 0, 0, 0.5, 2.5]);
  });

  it('has nothing to say of nothing', () => {
    expect(ewmaChart([], { target: 0, sigma: 1, lambda: 0.2, width: 3 })).toMatchObject({ notEvaluated: {} });
    expect(cusumChart([], { target: 0, sigma: 1, k: 0.5, h: 5 })).toMatchObject({ notEvaluated: {} });
  });
});

describe('runLength', () => {
  it('knows that an EWMA of the newest value alone is a chart of single values', () => {
    for (const sides of [1, 2] as const) {
      const shifts = [0, 1, 2.5];
      const single = runLength({ chart: { kind: 'individuals', width: 3 }, sides, shifts }).averageRunLength;
      const ewma = runLength({ chart: { kind: 'ewma', lambda: 1, width: 3 }, sides, shifts }).averageRunLength;
      ewma.forEach((length, index) => {
        expect(Math.abs((length as number) / (single[index] as number) - 1)).toBeLessThan(1e-9);
      });
    }
  });

  it('is what simulated series do', () => {
    const generator = seededGenerator(9);
    const series = 4000;
    const shift = 0.5;
    const designs = [
      { chart: { kind: 'ewma', lambda: 0.2, width: 2.5 }, sides: 1 },
      { chart: { kind: 'ewma', lambda: 0.2, width: 2.5 }, sides: 2 },
      { chart: { kind: 'cusum', k: 0.5, h: 3 }, sides: 2 },
    ] as const;
    for (const { chart, sides } of designs) {
      let [sum, squares] = [0, 0];
      for (let run = 0; run < series; run++) {
        let [point, upper, lower, count] = [0, 0, 0, 0];
        for (let signal = false; !signal; count++) {
          const value = shift + generator.normal();
          if (chart.kind === 'ewma') {
            point += chart.lambda * (value - point);
            const limit = chart.width * Math.sqrt(chart.lambda / (2 - chart.lambda));
            signal = point > limit || (sides === 2 && point < -limit);
          } else {
            upper = Math.max(0, upper + value - chart.k);
            lower = Math.max(0, lower - value - chart.k);
            signal = upper > chart.h || lower > chart.h;
          }
        }
        sum += count;
        squares += count * count;
      }
      const mean = sum / series;
      const error = Math.sqrt((squares / series - mean * mean) / series);
      const [found] = runLength({ chart, sides, shifts: [shift] }).averageRunLength;
      expect(Math.abs((found as number) - mean)).toBeLessThan(4 * error);
    }
  });

  it('falls as the shift grows, and is longer on one side than on two', () => {
    for (const chart of [
      { kind: 'individuals', width: 3 },
      { kind: 'ewma', lambda: 0.1, width: 2.8 },
      { kind: 'cusum', k: 0.5, h: 4 },
    ] as const) {
      const shifts = [0, 0.5, 1, 2, 4];
      const two = runLength({ chart, sides: 2, shifts }).averageRunLength as number[];
      const one = runLength({ chart, sides: 1, shifts }).averageRunLength as number[];
      for (let index = 1; index < shifts.length; index++) expect(two[index]).toBeLessThan(two[index - 1] as number);
      expect(one[0]).toBeGreaterThan(1.9 * (two[0] as number));
    }
  });

  it('says so where no signal is ever to be expected', () => {
    const { averageRunLength } = runLength({ chart: { kind: 'individuals', width: 3 }, sides: 1, shifts: [-60] });
    expect(averageRunLength[0]).toMatchObject({ notEvaluated: { possibleIf: 'the limits lie closer' } });
  });

  it('says so where the steps are too fine for the equation', () => {
    const { averageRunLength } = runLength({
      chart: { kind: 'ewma', lambda: 0.001, width: 3 },
      sides: 1,
      shifts: [-1],
    });
    expect(averageRunLength[0]).toMatchObject({
      notEvaluated: { because: expect.stringContaining('steps too small') },
    });
  });

  it('gives the charts set up from few lots their own, unlike run lengths', () => {
    const question = {
      chart: { kind: 'individuals', width: 3 },
      sides: 2,
      shifts: [0],
      estimatedFrom: { lots: 20, seed: 4, replicates: 4000 },
    } as const;
    const few = runLength(question);
    expect(few).toMatchObject({ seed: 4, replicates: 4000, averageRunLength: [{ notEvaluated: {} }] });
    const [told] = few.ofCharts ?? [];
    expect(told?.tenth).toBeLessThan(100);
    expect(told?.nineTenths).toBeGreaterThan(1000);
    expect(runLength(question)).toEqual(few);

    const many = runLength({ ...question, estimatedFrom: { lots: 800, seed: 4, replicates: 4000 } });
    const [average] = many.averageRunLength as number[];
    const [error] = many.simulationError ?? [];
    // With so many lots the chart is nearly that of known target and sigma, 370.4.
    expect(Math.abs((average as number) - 370.4)).toBeLessThan(40);
    expect(error).toBeLessThan(10);
  });

  it('treats charts of weighted means and of sums likewise', () => {
    for (const chart of [
      { kind: 'ewma', lambda: 0.2, width: 2.86 },
      { kind: 'cusum', k: 0.5, h: 4.774 },
    ] as const) {
      const found = runLength({ chart, sides: 2, shifts: [0, 1], estimatedFrom: { lots: 100, replicates: 200 } });
      const [still, shifted] = found.ofCharts ?? [];
      expect(still?.median).toBeGreaterThan(shifted?.nineTenths as number);
      expect(still?.tenth).toBeLessThan(still?.median as number);
      expect(found.averageRunLength).toHaveLength(2);
    }
  });
});

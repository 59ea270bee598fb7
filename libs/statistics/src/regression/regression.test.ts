import { describe, expect, it } from 'vitest';
import { chiSquareAbove } from '../distributions/chi-square.js';
import { seededGenerator } from '../random/generator.js';
import { BinaryLikelihood } from './binary-likelihood.js';
import { links } from './link.js';
import { responseCurve } from './response-curve.js';
import { staircase } from './staircase.js';

const trial = (level: number, broke: boolean) => ({ level, broke });
const ROWS = [
  { level: 25, tested: 1, broke: 0 },
  { level: 30, tested: 6, broke: 1 },
  { level: 35, tested: 9, broke: 4 },
  { level: 40, tested: 4, broke: 4 },
];

function curve(rows: typeof ROWS, confidence = 0.95, quantiles: number[] = []) {
  const found = responseCurve(rows, { link: 'probit', confidence, quantiles });
  if ('notEvaluated' in found) throw new Error(found.notEvaluated.because);
  return found;
}

describe('staircase', () => {
  it('finds the same median whichever outcome it counts', () => {
    // Alternating strikes: 5 of each, between 20 and 22.
    const trials = Array.from({ length: 10 }, (_, index) => trial(20 + 2 * (index % 2), index % 2 === 1));
    expect(staircase(trials, 2)).toMatchObject({ counted: 'failures', mean: 21, valid: false, nextLevel: 20 });
    expect(staircase([...trials, trial(20, false), trial(22, true), trial(20, true)], 2)).toMatchObject({
      counted: 'survivals',
      mean: 21,
      departures: [],
    });
  });

  it('goes one step down after a break and one up after none, and says where it did not', () => {
    const found = staircase([trial(1, false), trial(1.1, true), trial(1.1, false), trial(1.2, true)], 0.1);
    expect(found).toMatchObject({ departures: [2], nextLevel: expect.closeTo(1.1, 12) });
  });

  it('is not far from the truth over many simulated staircases', () => {
    const generator = seededGenerator(2);
    const runs = 600;
    let [mean, sd, counted] = [0, 0, 0];
    for (let run = 0; run < runs; run++) {
      const trials = [];
      let level = 50;
      for (let strike = 0; strike < 60; strike++) {
        const broke = 50 + 5 * generator.normal() < level;
        trials.push(trial(level, broke));
        level += broke ? -5 : 5;
      }
      const found = staircase(trials, 5);
      if ('notEvaluated' in found) throw new Error('both outcomes come up');
      mean += found.mean / runs;
      if (found.valid) {
        sd += found.sd;
        counted++;
      }
    }
    expect(Math.abs(mean - 50)).toBeLessThan(0.2);
    // Dixon and Mood (1948): the estimate of the scatter is nearly free of bias for steps near it.
    expect(Math.abs(sd / counted - 5)).toBeLessThan(0.4);
  });

  it.each([
    [[], 'no trials'],
    [[trial(3, false)], 'no specimen broke'],
    [[trial(3, true), trial(2, true)], 'every specimen broke'],
  ])('says why %j gives no median', (trials, because) => {
    expect(staircase(trials, 1)).toMatchObject({ notEvaluated: { because: expect.stringContaining(because) } });
  });

  it('refuses a level between the steps', () => {
    expect(() => staircase([trial(20, true), trial(19, false)], 2)).toThrow('trials[1].level is 19');
  });
});

describe('links', () => {
  it.each(Object.entries(links))('%s knows its own derivatives, far out too', (_, link) => {
    for (const eta of [-30, -6, -1, 0, 0.5, 3, 20]) {
      const step = 1e-5 * Math.max(1, Math.abs(eta));
      const slope = (link.logShare(eta + step).value - link.logShare(eta - step).value) / (2 * step);
      const bend = (link.logShare(eta + step).first - link.logShare(eta - step).first) / (2 * step);
      const { value, first, second } = link.logShare(eta);
      expect(Math.abs(first - slope)).toBeLessThan(1e-6 * Math.max(1, Math.abs(slope)));
      expect(Math.abs(second - bend)).toBeLessThan(1e-6);
      if (Math.abs(eta) < 7) expect(link.quantile(Math.exp(value))).toBeCloseTo(eta, 9);
    }
  });
});

describe('responseCurve', () => {
  it('moves and stretches with the unit', () => {
    const joule = curve(ROWS, 0.9, [0.1]);
    const other = curve(
      ROWS.map((row) => ({ ...row, level: 1000 + row.level * 3 })),
      0.9,
      [0.1],
    );
    const moved = (level: unknown) => expect.closeTo(1000 + 3 * (level as number), 5);
    expect(other.median).toEqual(moved(joule.median));
    expect(other.slope).toBeCloseTo((joule.slope as number) / 3, 9);
    expect(other.quantiles[0]?.value).toEqual(moved(joule.quantiles[0]?.value));
    expect(other.medianLimits.profile.map(Number)).toEqual(joule.medianLimits.profile.map(moved));
    expect(other.deviance).toBeCloseTo(joule.deviance, 9);
  });

  it('turns round when broken and unbroken change places', () => {
    const turned = curve(ROWS.map((row) => ({ ...row, broke: row.tested - row.broke })));
    expect(turned).toMatchObject({ direction: 'falling', median: expect.closeTo(curve(ROWS).median as number, 9) });
  });

  it('has profile limits at which the likelihood has fallen by as much as the confidence says', () => {
    const { medianLimits, logLikelihood } = curve(ROWS);
    const likelihood = new BinaryLikelihood(ROWS, links.probit);
    for (const limit of medianLimits.profile) {
      const fallen = 2 * (logLikelihood - likelihood.profile(limit as number, 0, 0.3).value);
      expect(chiSquareAbove(fallen, 1)).toBeCloseTo(0.05, 8);
    }
  });

  it('says why limits are open where the share hardly changes with the level', () => {
    const found = curve([
      { level: 1, tested: 6, broke: 2 },
      { level: 2, tested: 6, broke: 3 },
    ]);
    expect(found.median).toBeCloseTo(2, 9);
    expect(found.medianLimits.profile[0]).toMatchObject({ notEvaluated: {} });
    expect(found.medianLimits.fieller[1]).toMatchObject({ notEvaluated: {} });
  });

  it('says why there is no median where the share is the same at every level', () => {
    const found = curve([
      { level: 1, tested: 6, broke: 3 },
      { level: 2, tested: 2, broke: 1 },
    ]);
    expect(found).toMatchObject({ slope: expect.closeTo(0, 9), median: { notEvaluated: {} } });
    expect(found.standardErrors.median).toMatchObject({ notEvaluated: {} });
  });

  it('gives the interval, and no point, where levels part what broke from what held', () => {
    const found = curve(
      [
        { level: 10, tested: 3, broke: 0 },
        { level: 20, tested: 2, broke: 2 },
      ],
      0.95,
      [0.1],
    );
    expect(found).toMatchObject({
      separation: 'complete',
      separatedBetween: [10, 20],
      median: { notEvaluated: {} },
      slope: { notEvaluated: {} },
      quantiles: [{ fraction: 0.1, value: { notEvaluated: {} } }],
      deviance: 0,
    });
  });

  it('tends to the share at the one level that both outcomes share', () => {
    const rows = [
      { level: 10, tested: 3, broke: 0 },
      { level: 15, tested: 3, broke: 1 },
      { level: 15, tested: 3, broke: 2 },
      { level: 20, tested: 2, broke: 2 },
    ];
    const found = curve(rows);
    expect(found).toMatchObject({ separation: 'quasi-complete', median: 15, separatedBetween: [15, 15] });
    const likelihood = new BinaryLikelihood(rows, links.probit);
    // A very steep curve through one half at the shared level comes as near as one likes.
    expect(likelihood.at(-15 * 1e3, 1e3).value).toBeCloseTo(found.logLikelihood, 6);
  });

  it.each([
    [[], 'no trials'],
    [[{ level: 1, tested: 0, broke: 0 }], 'no trials'],
    [[{ level: 1, tested: 3, broke: 0 }], 'no specimen broke'],
    [[{ level: 1, tested: 3, broke: 3 }], 'every specimen broke'],
    [[{ level: 1, tested: 3, broke: 2 }], 'one level'],
  ])('says why %j gives no curve', (rows, because) => {
    expect(responseCurve(rows, { link: 'logit', confidence: 0.9 })).toMatchObject({
      notEvaluated: { because: expect.stringContaining(because) },
    });
  });
});

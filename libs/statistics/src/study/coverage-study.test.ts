import { describe, expect, it } from 'vitest';
import { coveragePage } from './coverage-page.js';
import { breaches, coverageExperiments, coverageStudy, familyScore } from './coverage-study.js';
import type { Experiment } from './experiment.js';

const experiments = coverageExperiments();

// The short form of `npm run coverage-study`: small samples, where bounds go wrong first, and few simulated of each.
describe('the coverage study, short', () => {
  const promised = experiments.filter(
    ({ promise, row }) => promise !== 'told' && (row.n === 5 || row.n === 8 || row.n === 29) && row.coverage === 0.9,
  );
  const outcomes = coverageStudy(promised, { seed: 4, replicates: 1500 });

  it('holds every exact and every conservative bound to its word', () => {
    expect(promised.length).toBeGreaterThan(30);
    expect(
      breaches(outcomes).map(({ outcome, held }) => [outcome.experiment.table, outcome.experiment.row, held]),
    ).toEqual([]);
  });

  it('would see a bound that is too bold', () => {
    const bold = experiments.filter(({ row }) => row.technique === 'likelihood-ratio' && row.n === 5);
    const taken = bold.map((experiment): Experiment => ({ ...experiment, promise: 'conservative' }));
    const found = coverageStudy(taken, { seed: 4, replicates: 2000 });
    // Nominal 95 % covers about 87 to 91 % at 5 to 12 complete specimens.
    const complete = found.find(({ experiment: { row } }) => row.test === 'complete' && row.distribution === 'weibull');
    expect(complete?.shares[0]?.held).toBeGreaterThan(0.85);
    expect(complete?.shares[0]?.held).toBeLessThan(0.92);
    expect(breaches(found).length).toBeGreaterThan(0);
  });

  it('judges the more leniently the more it looks at', () => {
    expect(familyScore(outcomes)).toBeGreaterThan(familyScore(outcomes.slice(0, 2)));
  });

  it('writes what it found, and the same for the same seed', () => {
    const few = experiments.filter(({ row }) => row.n === 3 && row.coverage === 0.9).slice(0, 3);
    const study = { seed: 9, replicates: 200 };
    const page = coveragePage(coverageStudy(few, study), study);
    expect(page).toBe(coveragePage(coverageStudy(few, study), study));
    expect(page).toContain('| n | coverage | held at 0.9 | held at 0.95 | held at 0.99 | error | no bound | samples |');
    expect(page).toContain('Held to the stated confidence on both sides.');
  });
});

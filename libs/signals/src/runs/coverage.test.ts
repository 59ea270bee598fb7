import { describe, expect, it } from 'vitest';
import { burstBesideOfKnownTruth, burstOfKnownTruth, holdOfKnownTruth } from './coverage-bursts.fixture.js';
import { dragOfKnownTruth } from './coverage-drags.fixture.js';
import type { Told } from './coverage-draw.fixture.js';
import {
  gateOfKnownTruth,
  onsetOfKnownTruth,
  springOfKnownTruth,
  strikeOfKnownTruth,
} from './coverage-strikes.fixture.js';

/** The long form, `node tests/bench/signals-coverage.mjs`, asks for 2000. */
const RUNS = Number(process.env.BREAKBOOK_COVERAGE_RUNS ?? 60);
/** Aimed at, with what is let pass; a short form lets three standard deviations of its count pass beside. */
const AIM = { covered: 0.95, within: 0.02 };
const chance = (runs: number) => (runs >= 2000 ? 0 : 3 * Math.sqrt((AIM.covered * (1 - AIM.covered)) / runs));
/** A drag draws thousands of trials of its own: a short form makes a third as many. */
const DRAGS = RUNS >= 2000 ? RUNS : RUNS / 3;

/** How often each characteristic lay within its expanded uncertainty of the truth. */
function coverage(run: (seed: number) => Told[], runs: number): Record<string, number> {
  const counted: Record<string, number> = {};
  for (let seed = 1; seed <= runs; seed++)
    for (const { characteristic, off, expanded } of run(seed))
      counted[characteristic] = (counted[characteristic] ?? 0) + (Math.abs(off) <= expanded ? 1 : 0);
  return Object.fromEntries(Object.entries(counted).map(([name, count]) => [name, count / runs]));
}

// U = k u with k = 2 covers about 95 % where the sum of the parts is near to normal: JCGM 100:2008 (GUM), G.1.3 and 6.3.3.
describe(`characteristics lie within their stated uncertainty of the truth, in ${RUNS} seeded runs`, () => {
  it.each<[string, (seed: number) => Told[], number?]>([
    ['bursts at 100 samples a second', (seed) => burstOfKnownTruth(seed, { rate: 100, noise: 0.3 })],
    ['bursts at 200 samples a second, with much noise', (seed) => burstOfKnownTruth(seed, { rate: 200, noise: 1 })],
    ['bursts with a hold, by a clock that is off', (seed) => holdOfKnownTruth(seed, { rate: 100, noise: 0.3 })],
    ['bursts with their flow and widths', (seed) => burstBesideOfKnownTruth(seed, { rate: 100, noise: 0.3 })],
    ['drags at 5 samples a second', (seed) => dragOfKnownTruth(seed, { rate: 5, noise: 1 }), DRAGS],
    ['strikes at 50 000 samples a second', (seed) => strikeOfKnownTruth(seed, { rate: 50_000, noise: 3 })],
    [
      'strikes at 100 000 samples a second, with much noise',
      (seed) => strikeOfKnownTruth(seed, { rate: 100_000, noise: 15 }),
    ],
    ['strikes at 250 000 samples a second', (seed) => strikeOfKnownTruth(seed, { rate: 250_000, noise: 3 })],
    ['strikes on springs', (seed) => springOfKnownTruth(seed, { rate: 100_000, noise: 3 })],
    ['strikes that break the part', (seed) => onsetOfKnownTruth(seed, { rate: 100_000, noise: 3 })],
    ['strikes through a gate that is off', gateOfKnownTruth],
  ])('%s', (_, run, runs = RUNS) => {
    const found = coverage(run, runs);
    if (RUNS >= 2000) console.log(found);
    for (const [characteristic, covered] of Object.entries(found))
      expect(Math.abs(covered - AIM.covered), `${characteristic}: ${covered}`).toBeLessThanOrEqual(
        AIM.within + chance(runs),
      );
  });
});

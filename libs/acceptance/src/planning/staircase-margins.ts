import { isNotEvaluated } from '@breakbook/lab';
import { normalCdf, seededGenerator } from '@breakbook/statistics';
import { levelLimit, type Strike } from '../lots/criteria/response-limit.js';

export interface StaircaseMargins {
  /** The chance that the lower limit of the median lies at or above a point, in standard deviations from the median. */
  chance: (point: number) => number;
  /** Share of the series that gave no limit; they pass nothing. */
  without: number;
}

const known = new Map<string, { margins: number[]; without: number; series: number }>();
const MOST_KNOWN = 50;

/**
 * Where does the lower limit of the median lie about the true one, for a staircase of n strikes? By seeded simulation of
 * normal breaking loads, in steps of one standard deviation from the median; a series whose levels part what broke from
 * what held gives no limit. Location and scale do not enter, so one simulation serves every population.
 *
 * Source: the limit is that of the criterion "response energy" (Finney 1971); the staircase, Dixon and Mood (1948).
 */
export function staircaseMargins(given: {
  n: number;
  confidence: number;
  seed: number;
  series: number;
}): StaircaseMargins {
  const { margins, without, series } = simulated(given);
  return {
    chance: (point) => margins.filter((margin) => margin >= point).length / series,
    without: without / series,
  };
}

function simulated(given: { n: number; confidence: number; seed: number; series: number }) {
  const key = JSON.stringify(given);
  const found = known.get(key);
  if (found) return found;
  const { n, confidence, seed, series } = given;
  const { uniform } = seededGenerator(seed);
  const margins: number[] = [];
  for (let count = 0; count < series; count++) {
    const strikes: Strike[] = [];
    // Half a step off, so that no series stands on the median itself more often than another.
    let level = uniform() - 0.5;
    for (let strike = 0; strike < n; strike++) {
      const broke = uniform() < normalCdf(level);
      strikes.push({ level, broke });
      level += broke ? -1 : 1;
    }
    const limit = levelLimit(strikes, 0.5, confidence);
    if (!isNotEvaluated(limit)) margins.push(limit.lower);
  }
  const made = { margins, without: series - margins.length, series };
  if (known.size >= MOST_KNOWN) known.delete(known.keys().next().value as string);
  known.set(key, made);
  return made;
}

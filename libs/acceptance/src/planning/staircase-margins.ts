import { isNotEvaluated } from '@breakbook/lab';
import { normalCdf, responseCurve, seededGenerator } from '@breakbook/statistics';
import { remembered } from '../remembered.js';

/** Said beside every chance that comes from these margins. */
export const JUDGED_LOWER =
  'a lot is judged by a limit calibrated for its own series, which lies somewhat lower, so that it passes at most so often';

export interface StaircaseMargins {
  /** The chance that the lower limit of the median lies at or above a point, in standard deviations from the median. */
  chance: (point: number) => number;
  /** Share of the series that gave no limit; they pass nothing. */
  without: number;
}

interface Staircases {
  n: number;
  confidence: number;
  seed: number;
  series: number;
}

/**
 * Where does the lower limit of the median lie about the true one, for a staircase of n strikes? By seeded simulation of
 * normal breaking loads, in steps of one standard deviation from the median; a series whose levels part what broke from
 * what held gives no limit. Location and scale do not enter, so one simulation serves every population.
 *
 * The limit is the profile limit of the response curve, not calibrated, since calibrating each of hundreds of series takes
 * minutes: see `JUDGED_LOWER`.
 *
 * Source: limits, Finney (1971), Probit Analysis, 3rd ed.; the staircase, Dixon and Mood (1948).
 */
export function staircaseMargins(given: Staircases): StaircaseMargins {
  const margins = simulated(given);
  const { series } = given;
  return {
    chance: (point) => margins.filter((margin) => margin >= point).length / series,
    without: 1 - margins.length / series,
  };
}

const simulated = remembered(50, ({ n, confidence, seed, series }: Staircases): number[] => {
  const { uniform } = seededGenerator(seed);
  return Array.from({ length: series }, () => {
    const rows = new Map<number, { level: number; tested: number; broke: number }>();
    // Half a step off, so that no series stands on the median itself more often than another.
    let level = uniform() - 0.5;
    for (let strike = 0; strike < n; strike++) {
      const broke = uniform() < normalCdf(level);
      const row = rows.get(level) ?? { level, tested: 0, broke: 0 };
      rows.set(level, { level, tested: row.tested + 1, broke: row.broke + (broke ? 1 : 0) });
      level += broke ? -1 : 1;
    }
    return lowerLimit([...rows.values()], confidence);
  }).flatMap((limit) => (limit === undefined ? [] : [limit]));
});

function lowerLimit(rows: Parameters<typeof responseCurve>[0], confidence: number): number | undefined {
  // A one-sided limit is the lower end of a two-sided interval of twice the risk.
  const curve = responseCurve(rows, { link: 'probit', confidence: 2 * confidence - 1, quantiles: [0.5] });
  if (isNotEvaluated(curve) || curve.direction === 'falling' || isNotEvaluated(curve.slope)) return undefined;
  const [lower] = curve.quantiles[0]?.limits.profile ?? [];
  return lower === undefined || isNotEvaluated(lower) ? undefined : lower;
}

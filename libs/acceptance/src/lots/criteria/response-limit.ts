import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalCdf, normalQuantile, responseCurve, seededGenerator } from '@breakbook/statistics';

/** One specimen, struck once, in the order struck. */
export interface Strike {
  level: number;
  broke: boolean;
}

/** The lower limit of the level at which a share breaks, with how often such a limit lies below the truth. */
export interface ResponseLimit {
  /** The level, as best estimated. */
  estimate: number;
  lower: number;
  /** Share of simulated series like this one whose limit lay at or below the true level. */
  achieved: number;
  error: number;
  seed: number;
  replicates: number;
  /** Of the simulated series, the share that gave no limit; those count as limits that claim nothing. */
  without: number;
}

const REPLICATES = 400;
const SEED = 1;

/**
 * At or above which level does this share of the population break, with this confidence? The lower profile limit of a
 * normal (probit) response curve, and the coverage that it reaches: series of strikes are simulated at the fitted curve,
 * by the same staircase or at the same levels, and the share counted whose limit lies at or below the true level.
 *
 * Profile limits are exact only for many specimens, so that the coverage is found here for each series. Not evaluated
 * where there is no finite limit.
 *
 * Source: Finney (1971), Probit Analysis, 3rd ed.; profile limits, Meeker and Escobar (1998), chapter 8; coverage by
 * parametric simulation, Efron and Tibshirani (1993), An Introduction to the Bootstrap, chapter 18 (calibration).
 */
export function responseLimit(
  strikes: readonly Strike[],
  share: number,
  confidence: number,
  step?: number,
): ResponseLimit | NotEvaluated {
  const found = levelLimit(strikes, share, confidence);
  if (isNotEvaluated(found)) return found;
  const { mean, sd } = found;
  const truth = mean + sd * normalQuantile(share);
  const { uniform } = seededGenerator(SEED);
  let [held, without] = [0, 0];
  for (let replicate = 0; replicate < REPLICATES; replicate++) {
    const series = simulated(strikes, step, (level) => uniform() < normalCdf((level - mean) / sd));
    const again = levelLimit(series, share, confidence);
    if (isNotEvaluated(again)) without++;
    if (isNotEvaluated(again) || again.lower <= truth) held++;
  }
  const achieved = held / REPLICATES;
  return {
    estimate: found.estimate,
    lower: found.lower,
    achieved,
    error: Math.sqrt((achieved * (1 - achieved)) / REPLICATES),
    seed: SEED,
    replicates: REPLICATES,
    without: without / REPLICATES,
  };
}

function simulated(strikes: readonly Strike[], step: number | undefined, breaks: (level: number) => boolean): Strike[] {
  const series: Strike[] = [];
  let level = strikes[0]?.level ?? 0;
  for (const strike of strikes) {
    const at = step === undefined ? strike.level : level;
    const broke = breaks(at);
    series.push({ level: at, broke });
    level = broke ? at - (step ?? 0) : at + (step ?? 0);
  }
  return series;
}

/** The lower profile limit of the level at which a share breaks, and the curve it comes from. */
export function levelLimit(
  strikes: readonly Strike[],
  share: number,
  confidence: number,
): { estimate: number; lower: number; mean: number; sd: number } | NotEvaluated {
  const rows = new Map<number, { level: number; tested: number; broke: number }>();
  for (const { level, broke } of strikes) {
    const row = rows.get(level) ?? { level, tested: 0, broke: 0 };
    row.tested++;
    if (broke) row.broke++;
    rows.set(level, row);
  }
  // A one-sided limit is the lower end of a two-sided interval of twice the risk.
  const curve = responseCurve([...rows.values()], {
    link: 'probit',
    confidence: 2 * confidence - 1,
    quantiles: [share],
  });
  if (isNotEvaluated(curve)) return curve;
  if (curve.direction === 'falling')
    return notEvaluated('more specimens broke at lower levels than at higher ones', 'the levels are recorded rightly');
  const [quantile] = curve.quantiles;
  const { median, slope } = curve;
  if (!quantile || isNotEvaluated(quantile.value) || isNotEvaluated(median) || isNotEvaluated(slope))
    return notEvaluated(
      'the levels part what broke from what held, so that a curve of any steepness fits',
      'more specimens are struck, so that some hold where or above where another broke',
    );
  const [lower] = quantile.limits.profile;
  if (isNotEvaluated(lower)) return lower;
  return { estimate: quantile.value, lower, mean: median, sd: 1 / slope };
}

import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalCdf, normalQuantile } from '../distributions/normal.js';
import { settled } from '../numerics/no-convergence.js';
import { seededGenerator } from '../random/generator.js';
import { requireFinite, requireFraction, requirePositive } from '../requirements.js';
import { BinaryLikelihood, type LevelResult } from './binary-likelihood.js';
import { links } from './link.js';
import { responseCurve } from './response-curve.js';
import { separationOf } from './separation.js';
import type { StaircaseTrial } from './staircase.js';

export interface ResponseBoundQuestion {
  /** In the order struck. */
  trials: readonly StaircaseTrial[];
  /** Of the population, breaking at or below the level asked for. */
  share: number;
  confidence: number;
  /** Of the staircase by which the levels were chosen; left out where they were planned. */
  step?: number | undefined;
  seed?: number | undefined;
  /** Simulated series at each scatter tried. */
  replicates?: number | undefined;
}

/** The lower limit of the level at which a share breaks. */
export interface ResponseBound {
  method: 'response bound';
  /** The level, as best estimated, and the scatter of the level at which a specimen breaks. */
  estimate: number;
  scatter: number;
  bound: number;
  /** How many standard errors below the estimate the limit is taken, by signed root of the likelihood. */
  root: number;
  /** The same without calibration. */
  nominalRoot: number;
  /** At each scatter tried, the share of simulated series whose limit lay at or below the true level. */
  reached: { scatter: number; share: number }[];
  /** The least of them: the confidence on which acceptance may rest. */
  achievedConfidence: number;
  /** Of the series simulated at the fitted scatter, the share that gave no curve: they claim nothing. */
  without: number;
  simulationError: number;
  seed: number;
  replicates: number;
}

const USUAL_REPLICATES = 500;

/** The scatter is known poorly from few strikes, and fitted too small: the limit must also serve where it is larger. */
const SCATTERS = [0.7, 1, 1.5, 2.2] as const;

/**
 * At or above which level does this share of a population break, with this confidence, when each specimen was struck once?
 * The lower profile limit of a normal (probit) curve, taken as many standard errors r below the estimate as it needs:
 *
 *     r(x) = sign(estimate - x) sqrt(2 (l max - l(x))),     bound: r = max(z, r of the simulated series)
 *
 * z the normal quantile of the confidence, at which the limit would be taken were specimens many: of 20 strikes such limits
 * lie above the truth too often. So series are simulated by the same staircase or at the same levels, from curves with the
 * fitted level and 0.7, 1, 1.5 and 2.2 times the fitted scatter, and r is the largest quantile, at the confidence, of r(true
 * level), one standard error to the safe side. A series without a curve claims nothing and counts as one that holds.
 *
 * Assumes the level at which a specimen breaks normal, specimens independent, struck once. Smallest: as `responseCurve`.
 *
 * Source: profile limits, Meeker and Escobar (1998), chapter 8; calibration by parametric simulation, Efron and Tibshirani
 * (1993), An Introduction to the Bootstrap, chapter 18; probit, Finney (1971).
 */
export function responseBound(question: ResponseBoundQuestion): ResponseBound | NotEvaluated {
  const { trials, share, confidence, step, seed = 1, replicates = USUAL_REPLICATES } = question;
  requireFraction('responseBound', { share, confidence });
  if (step !== undefined) requirePositive('responseBound', { step });
  trials.forEach(({ level }, index) => {
    requireFinite('responseBound', { [`trials[${index}].level`]: level });
  });
  const fitted = curveOf(trials, share);
  if (isNotEvaluated(fitted)) return fitted;
  const { estimate, scatter } = fitted;

  const { uniform } = seededGenerator(seed);
  const simulated = SCATTERS.map((times) => {
    const sd = times * scatter;
    const median = estimate - sd * normalQuantile(share);
    const breaks = (level: number) => uniform() < normalCdf((level - median) / sd);
    return Float64Array.from({ length: replicates }, () => {
      const root = rootAt(seriesLike(trials, step, breaks), share, estimate);
      return root === undefined ? Number.NEGATIVE_INFINITY : root;
    }).sort();
  });
  const spare = Math.sqrt(replicates * confidence * (1 - confidence));
  const place = Math.min(replicates - 1, Math.ceil(replicates * confidence + spare));
  const nominalRoot = normalQuantile(confidence);
  const root = Math.max(nominalRoot, ...simulated.map((roots) => roots[place] as number));
  const bound = limitAt(trials, share, root);
  if (isNotEvaluated(bound)) return bound;

  const reached = simulated.map((roots, index) => ({
    scatter: (SCATTERS[index] as number) * scatter,
    share: roots.filter((one) => one <= root).length / replicates,
  }));
  const achievedConfidence = Math.min(...reached.map((one) => one.share));
  return {
    method: 'response bound',
    estimate,
    scatter,
    bound,
    root,
    nominalRoot,
    reached,
    achievedConfidence,
    without: (simulated[1] as Float64Array).filter((one) => one === Number.NEGATIVE_INFINITY).length / replicates,
    simulationError: Math.sqrt((achievedConfidence * (1 - achievedConfidence)) / replicates),
    seed,
    replicates,
  };
}

const PARTED = notEvaluated(
  'the levels part what broke from what held, so that a curve of any steepness fits',
  'more specimens are struck, so that some hold where or above where another broke',
);

function curveOf(trials: readonly StaircaseTrial[], share: number) {
  const curve = responseCurve(rowsOf(trials), { link: 'probit', confidence: 0.5, quantiles: [share] });
  if (isNotEvaluated(curve)) return curve;
  if (curve.direction === 'falling')
    return notEvaluated('more specimens broke at lower levels than at higher ones', 'the levels are recorded rightly');
  const [quantile] = curve.quantiles;
  if (!quantile || isNotEvaluated(quantile.value) || isNotEvaluated(curve.slope)) return PARTED;
  return { estimate: quantile.value, scatter: 1 / curve.slope };
}

/** The lower profile limit that lies so many roots below the estimate. */
function limitAt(trials: readonly StaircaseTrial[], share: number, root: number): number | NotEvaluated {
  // A limit at one root is the lower end of the two-sided interval of that normal quantile.
  const confidence = 2 * normalCdf(root) - 1;
  const curve = responseCurve(rowsOf(trials), { link: 'probit', confidence, quantiles: [share] });
  if (isNotEvaluated(curve)) return curve;
  return curve.quantiles[0]?.limits.profile[0] ?? PARTED;
}

/** r at the true level, of one series; undefined where the series has no rising curve. */
function rootAt(trials: readonly StaircaseTrial[], share: number, truth: number): number | undefined {
  const rows = rowsOf(trials);
  if (rows.every(({ broke }) => broke === 0) || rows.every(({ broke, tested }) => broke === tested)) return undefined;
  if (rows.length < 2 || separationOf(rows)) return undefined;
  const spread = Math.max(...rows.map(({ level }) => Math.abs(level - truth)));
  const eta = normalQuantile(share);
  return settled(
    () => {
      const likelihood = new BinaryLikelihood(
        rows.map((row) => ({ ...row, level: (row.level - truth) / spread })),
        links.probit,
      );
      const maximum = likelihood.maximum();
      if (maximum.slope <= 0) return undefined;
      const { value } = likelihood.profile(0, eta, maximum.slope);
      const distance = Math.sqrt(Math.max(0, 2 * (maximum.value - value)));
      return Math.sign((eta - maximum.intercept) / maximum.slope) * distance;
    },
    () => undefined,
  );
}

function rowsOf(trials: readonly StaircaseTrial[]): LevelResult[] {
  const rows = new Map<number, LevelResult>();
  for (const { level, broke } of trials) {
    const row = rows.get(level) ?? { level, tested: 0, broke: 0 };
    row.tested++;
    if (broke) row.broke++;
    rows.set(level, row);
  }
  return [...rows.values()];
}

function seriesLike(
  trials: readonly StaircaseTrial[],
  step: number | undefined,
  breaks: (level: number) => boolean,
): StaircaseTrial[] {
  let steps = 0;
  const start = (trials[0] as StaircaseTrial).level;
  return trials.map((trial) => {
    const level = step === undefined ? trial.level : start + steps * step;
    const broke = breaks(level);
    steps += broke ? -1 : 1;
    return { level, broke };
  });
}

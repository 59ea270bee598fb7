import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import type { Described } from '../description/summary.js';
import { normalQuantile } from '../distributions/normal.js';
import { settled } from '../numerics/no-convergence.js';
import { requireCount, requireFinite, requireFraction } from '../requirements.js';
import { BinaryLikelihood, type LevelResult } from './binary-likelihood.js';
import { errorOfPlace, type LevelLimits, levelLimits } from './level-limits.js';
import { type LinkName, links } from './link.js';
import { type Separation, separationOf } from './separation.js';

/** The level at which a share of the population breaks. */
export interface ResponseQuantile {
  fraction: number;
  value: Described;
  limits: LevelLimits;
}

export interface ResponseCurve {
  method: 'response curve';
  link: LinkName;
  tested: number;
  broke: number;
  confidence: number;
  /** Share breaking at level x is F(intercept + slope x). */
  intercept: Described;
  slope: Described;
  standardErrors: { intercept: Described; slope: Described; median: Described };
  /** Level at which half of the population breaks. */
  median: Described;
  medianLimits: LevelLimits;
  quantiles: ResponseQuantile[];
  /** Twice the log-likelihood that one share of its own for each row gains over the curve. */
  deviance: number;
  logLikelihood: number;
  separation: 'none' | Separation['kind'];
  /** Between these levels the median lies, where they part what broke from what held. */
  separatedBetween?: [number, number];
  direction: Separation['direction'];
}

export interface ResponseOptions {
  link: LinkName;
  confidence: number;
  /** Shares breaking at which the level is asked for. */
  quantiles?: readonly number[] | undefined;
}

/**
 * What share of a population breaks at a level, and at what level does half of it break, when each specimen was struck once
 * at one level?
 *
 *     share breaking at x = F(a + b x),     F normal (probit) or 1 / (1 + exp(-eta)) (logit),     median = -a / b
 *
 * Maximum likelihood; standard errors by the expected information. Limits of a level by profile likelihood, and by Fieller's
 * theorem, which has finite ones only where the slope differs surely from 0. Where levels part what broke from what held
 * there is no finite curve: the answer is then the interval between them, and no point.
 *
 * Assumes specimens independent, each struck once, levels known. Smallest: 2 levels, both outcomes, and for a point an
 * overlap: something that held where or above where another broke.
 *
 * Source: Finney (1971), Probit Analysis, 3rd ed.; Fieller (1954), J. R. Statist. Soc. B 16, 175-185; Albert and Anderson
 * (1984), Biometrika 71, 1-10.
 */
export function responseCurve(
  rows: readonly LevelResult[],
  { link, confidence, quantiles = [] }: ResponseOptions,
): ResponseCurve | NotEvaluated {
  requireFraction('responseCurve', { confidence });
  for (const fraction of quantiles) requireFraction('responseCurve', { fraction });
  rows.forEach(({ level, tested, broke }, index) => {
    requireFinite('responseCurve', { [`trials[${index}].level`]: level });
    requireCount('responseCurve', { [`trials[${index}].tested`]: tested, [`trials[${index}].broke`]: broke });
    if (broke > tested)
      throw new RangeError(`responseCurve: trials[${index}]: ${broke} of ${tested} cannot have broken.`);
  });
  const struck = rows.filter((row) => row.tested > 0);
  const impossible = whyNoCurve(struck);
  if (impossible) return impossible;

  const head = {
    method: 'response curve' as const,
    link,
    tested: struck.reduce((sum, row) => sum + row.tested, 0),
    broke: struck.reduce((sum, row) => sum + row.broke, 0),
    confidence,
  };
  const separation = separationOf(struck);
  if (separation) return { ...head, ...separated(struck, separation, quantiles) };
  return settled(
    () => ({ ...head, ...fitted(struck, links[link], confidence, quantiles) }),
    () =>
      notEvaluated(
        'the search for the largest likelihood did not settle: the levels all but part what broke from what held',
        'more specimens are struck near the median',
      ),
  );
}

function whyNoCurve(rows: readonly LevelResult[]): NotEvaluated | undefined {
  if (rows.length === 0) return notEvaluated('there are no trials', 'specimens are struck');
  if (rows.every((row) => row.broke === 0)) return notEvaluated('no specimen broke', 'some are struck harder');
  if (rows.every((row) => row.broke === row.tested))
    return notEvaluated('every specimen broke', 'some are struck less hard');
  if (rows.every((row) => row.level === rows[0]?.level))
    return notEvaluated('all specimens were struck at one level', 'specimens are struck at 2 levels at least');
  return undefined;
}

const NOWHERE = notEvaluated(
  'the share breaking is the same at every level, so no level belongs to another share',
  'specimens are struck farther from each other in level',
);

type Body = Omit<ResponseCurve, 'method' | 'link' | 'tested' | 'broke' | 'confidence'>;

function fitted(
  rows: readonly LevelResult[],
  link: (typeof links)[LinkName],
  confidence: number,
  quantiles: readonly number[],
): Body {
  const levels = rows.map(({ level }) => level);
  const centre = levels.reduce((sum, level) => sum + level / levels.length, 0);
  const spread = levels.reduce((most, level) => Math.max(most, Math.abs(level - centre)), 0);
  const likelihood = new BinaryLikelihood(
    rows.map((row) => ({ ...row, level: (row.level - centre) / spread })),
    link,
  );
  const maximum = likelihood.maximum();
  const covariance = likelihood.covariance(maximum);
  const score = -normalQuantile((1 - confidence) / 2);
  const back = (place: Described) => (isNotEvaluated(place) ? place : centre + spread * place);
  const flat = Math.abs(maximum.slope) <= 1e-9 * Math.sqrt(covariance.slope);
  const levelAt = (eta: number): { value: Described; limits: LevelLimits } => {
    if (flat) return { value: NOWHERE, limits: { profile: [NOWHERE, NOWHERE], fieller: [NOWHERE, NOWHERE] } };
    const limits = levelLimits(likelihood, maximum, covariance, eta, score);
    return {
      value: centre + (spread * (eta - maximum.intercept)) / maximum.slope,
      limits: {
        profile: [back(limits.profile[0]), back(limits.profile[1])],
        fieller: [back(limits.fieller[0]), back(limits.fieller[1])],
      },
    };
  };

  const slope = maximum.slope / spread;
  const median = levelAt(0);
  const offset = centre / spread;
  const varianceOfIntercept = covariance.intercept - 2 * offset * covariance.both + offset ** 2 * covariance.slope;
  return {
    intercept: maximum.intercept - maximum.slope * offset,
    slope,
    standardErrors: {
      intercept: Math.sqrt(varianceOfIntercept),
      slope: Math.sqrt(covariance.slope) / spread,
      median: flat ? NOWHERE : spread * errorOfPlace(maximum, covariance, 0),
    },
    median: median.value,
    medianLimits: median.limits,
    quantiles: quantiles.map((fraction) => ({ fraction, ...levelAt(link.quantile(fraction)) })),
    deviance: 2 * (ownShares(rows) - maximum.value),
    logLikelihood: maximum.value,
    separation: 'none',
    direction: slope > 0 ? 'rising' : 'falling',
  };
}

function separated(rows: readonly LevelResult[], separation: Separation, quantiles: readonly number[]): Body {
  const { kind, between, direction } = separation;
  const none = notEvaluated(
    kind === 'complete'
      ? `all that ${direction === 'rising' ? 'held' : 'broke'} was struck at ${between[0]} or below, all else at ${between[1]} or above: any curve between explains them`
      : `both outcomes were seen at ${between[0]} alone, so that the steepest curve explains them best`,
    'more specimens are struck near the median, some of which hold above where others break',
  );
  const pair: [NotEvaluated, NotEvaluated] = [none, none];
  const limits = { profile: pair, fieller: pair };
  // The likelihood tends to that of the rows at the shared level, with the share of all of them.
  const shared = rows.filter(({ level }) => kind === 'quasi-complete' && level === between[0]);
  const tested = shared.reduce((sum, row) => sum + row.tested, 0);
  const broke = shared.reduce((sum, row) => sum + row.broke, 0);
  const logLikelihood = tested > 0 ? ownShares([{ level: between[0], tested, broke }]) : 0;
  return {
    intercept: none,
    slope: none,
    standardErrors: { intercept: none, slope: none, median: none },
    median: kind === 'quasi-complete' ? between[0] : none,
    medianLimits: limits,
    quantiles: quantiles.map((fraction) => ({ fraction, value: none, limits })),
    deviance: 2 * (ownShares(rows) - logLikelihood),
    logLikelihood,
    separation: kind,
    separatedBetween: between,
    direction,
  };
}

/** The log-likelihood where each row has the share that broke in it. */
function ownShares(rows: readonly LevelResult[]): number {
  return rows.reduce((sum, { tested, broke }) => sum + times(broke, tested) + times(tested - broke, tested), 0);
}

function times(part: number, whole: number): number {
  return part === 0 ? 0 : part * Math.log(part / whole);
}

import { type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import { requireFraction, requireValues } from '../requirements.js';
import { turnbullSteps } from './turnbull.js';

/** The share surviving from one strength on, at which specimens broke. */
export interface SurvivalPoint {
  /** In the unit of the sample. Where strengths are known within intervals: the strength by which the step is done. */
  value: number;
  /** Where the step begins, if it is known within an interval only; left out, it happens at `value`. */
  from?: number | NotEvaluated;
  /** Specimens that held until here and were still on test; where intervals overlap, that cannot be counted. */
  atRisk: number | NotEvaluated;
  failed: number | NotEvaluated;
  survival: number;
  standardError: number | NotEvaluated;
  limits: [number, number] | NotEvaluated;
}

export interface KaplanMeier {
  method: 'Kaplan-Meier' | 'Turnbull';
  n: number;
  failures: number;
  /** Two-sided, of `limits`. */
  confidence: number;
  points: SurvivalPoint[];
  /** What the reader of the steps must know. */
  note?: string;
}

const NO_GREENWOOD = notEvaluated(
  'strengths are known within intervals, and the variance formula of Greenwood needs them exactly',
  'every strength is known exactly or as at least',
);

const NO_LOWER_END = notEvaluated(
  'strengths here are known as at most, and nothing says what they held',
  'the specimens are known to have held some value',
);

/**
 * What share of the specimens survives each strength, whatever the distribution?
 *
 *     S(x) = product over failures at t <= x of (1 - d / r)
 *     standard error = S sqrt(sum of d / (r (r - d)))                                   (Greenwood)
 *     limits = S^exp(-+ z se(ln -ln S)),   se(ln -ln S) = standard error / (S |ln S|)
 *
 * with d specimens broken at t and r still on test; those that held t and were then withdrawn count as on test at t. With
 * "at most" or "between" values the step function is Turnbull's (see `turnbullSteps`), without standard errors.
 *
 * Assumes that what ended a test early had nothing to do with how much more the specimen would have held. Below the first
 * failure S is 1 and beyond the last value recorded it is unknown, unless it fell to 0.
 *
 * Source: Kaplan and Meier (1958), J. Amer. Statist. Assoc. 53, 457-481; limits Kalbfleisch and Prentice (2002), The
 * Statistical Analysis of Failure Time Data, 2nd ed., section 1.4.
 */
export function kaplanMeier(sample: Sample, { confidence = 0.95 } = {}): KaplanMeier | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireFraction('kaplanMeier', { confidence });
  requireValues('kaplanMeier', 'exact', exact);
  requireValues('kaplanMeier', 'atLeast', atLeast);
  requireValues('kaplanMeier', 'atMost', atMost);
  const failures = exact.length + atMost.length + between.length;
  const n = failures + atLeast.length;
  if (n === 0) return notEvaluated('the sample is empty', 'specimens are tested');
  if (failures === 0)
    return notEvaluated('no specimen broke, so there is no step to draw', 'at least 1 specimen breaks');
  if (atMost.length + between.length === 0)
    return { method: 'Kaplan-Meier', n, failures, confidence, points: stepsOf(exact, atLeast, confidence) };

  const steps = turnbullSteps(sample);
  if ('notEvaluated' in steps) return steps;
  return {
    method: 'Turnbull',
    n,
    failures,
    confidence,
    points: steps.map(({ from, to, survival }) => ({
      value: to,
      ...(from === to ? {} : { from: Number.isFinite(from) ? from : NO_LOWER_END }),
      atRisk: NO_GREENWOOD,
      failed: NO_GREENWOOD,
      survival,
      standardError: NO_GREENWOOD,
      limits: NO_GREENWOOD,
    })),
    note:
      'some strengths are known within intervals only: the steps are those of maximum likelihood, where between `from` ' +
      'and `value` a step happens is not known, and there are no standard errors',
  };
}

function stepsOf(exact: readonly number[], atLeast: readonly number[], confidence: number): SurvivalPoint[] {
  const broken = exact.toSorted((a, b) => a - b);
  const withdrawn = atLeast.toSorted((a, b) => a - b);
  const score = -normalQuantile((1 - confidence) / 2);
  const points: SurvivalPoint[] = [];
  let [survival, variance, gone, left] = [1, 0, 0, 0];
  while (gone < broken.length) {
    const value = broken[gone] as number;
    while (left < withdrawn.length && (withdrawn[left] as number) < value) left++;
    const atRisk = broken.length - gone + withdrawn.length - left;
    let failed = 0;
    while (broken[gone] === value) {
      failed++;
      gone++;
    }
    survival *= 1 - failed / atRisk;
    variance += failed / (atRisk * (atRisk - failed));
    points.push({ value, atRisk, failed, ...spreadOf(survival, variance, score) });
  }
  return points;
}

function spreadOf(
  survival: number,
  variance: number,
  score: number,
): Pick<SurvivalPoint, 'survival' | 'standardError' | 'limits'> {
  if (survival === 0) {
    const why = notEvaluated(
      'none that reached this strength held more, and the variance formula of Greenwood has no answer there',
      'a specimen is known to have held more',
    );
    return { survival, standardError: why, limits: why };
  }
  const off = (score * Math.sqrt(variance)) / Math.abs(Math.log(survival));
  return {
    survival,
    standardError: survival * Math.sqrt(variance),
    limits: [survival ** Math.exp(off), survival ** Math.exp(-off)],
  };
}

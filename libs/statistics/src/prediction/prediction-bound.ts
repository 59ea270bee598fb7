import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { whyNotConditional } from '../bounds/why-not-conditional.js';
import { normalDensity, normalQuantile } from '../distributions/normal.js';
import { estimateWeibull } from '../fits/weibull-fit.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { settled } from '../numerics/no-convergence.js';
import { requireCount, requireFraction, requireValues } from '../requirements.js';
import { type FutureQuestion, normalValues, sampleOf } from './future.js';
import { minimumOfFuture } from './normal-minimum.js';
import { chanceAllAbove } from './order-statistic-prediction.js';
import { weibullMinimumPoint } from './weibull-minimum.js';

/** What the bound lies below: any one future unit, all m of them, or their mean. */
export type PredictedUnits = 'one' | 'all' | 'mean';

export interface PredictionQuestion extends FutureQuestion {
  confidence: number;
  of: PredictedUnits;
}

export interface PredictionBound {
  method: 'prediction bound';
  distribution: FutureQuestion['distribution'];
  of: PredictedUnits;
  m: number;
  n: number;
  confidence: number;
  /** The confidence really reached. */
  achievedConfidence: number;
  /** In the unit of the strengths. */
  bound: number;
  /** Standard deviations below the mean; of ln strength if lognormal. Left out where the bound is no such number. */
  factor?: number;
  /** Which of the strengths, from the weakest, where no distribution is assumed. */
  rank?: number;
}

/** What one technique finds; the rest of the answer is the same for all. */
type Found = Pick<PredictionBound, 'bound' | 'factor' | 'rank' | 'n'> & { achievedConfidence?: number };

/**
 * What strength will the next unit, each of the next m units, or the mean of the next m units exceed, with this confidence?
 *
 *     normal      bound = mean - r s       (lognormal: the same of ln strength)
 *                 one   r = t(confidence; n - 1) sqrt(1 + 1 / n)
 *                 mean  r = t(confidence; n - 1) sqrt(1 / m + 1 / n)
 *                 all   the r at which the smallest of m lies above with this chance (see `minimumOfFuture`)
 *     weibull     one and all, by the conditional technique (see `weibullMinimum`)
 *     distribution-free   one and all: the rank-th weakest strength (see `chanceAllAbove`)
 *
 * A prediction is of units still to come, a tolerance bound of the whole population: the two are not the same number.
 *
 * Assumes past and future units drawn at random from one population. Exact; distribution-free with the confidence reached.
 * Smallest n: 2 different strengths; distribution-free 1.
 *
 * Source: Hahn and Meeker (1991), Statistical Intervals, chapters 4 and 5; Hahn (1970), Technometrics 12, 667-676; Lawless
 * (1973), Technometrics 15, 857-865.
 */
export function predictionBound(question: PredictionQuestion): PredictionBound | NotEvaluated {
  const { distribution, of, confidence } = question;
  requireFraction('predictionBound', { confidence });
  requireCount('predictionBound', { m: question.m }, 1);
  const found = foundFor({ ...question, m: of === 'one' ? 1 : question.m });
  if (isNotEvaluated(found)) return found;
  if (!Number.isFinite(found.bound) || (found.bound === 0 && distribution !== 'normal'))
    return notEvaluated('the bound lies beyond every strength a number can hold', 'strengths scatter less');
  return {
    method: 'prediction bound',
    distribution,
    of,
    m: question.m,
    confidence,
    achievedConfidence: confidence,
    ...found,
  };
}

function foundFor(question: PredictionQuestion): Found | NotEvaluated {
  switch (question.distribution) {
    case 'normal':
    case 'lognormal':
      return normalPrediction(question);
    case 'weibull':
      return weibullPrediction(question);
    case 'distribution-free':
      return freePrediction(question);
  }
}

function normalPrediction(question: PredictionQuestion): Found | NotEvaluated {
  const { distribution, of, m } = question;
  if (of === 'mean' && distribution === 'lognormal' && m > 1)
    return notEvaluated(
      'the mean of several lognormal strengths has no distribution that an exact bound could rest on',
      'the bound is asked for one unit or for all, or strength is taken as normal',
    );
  const values = normalValues('predictionBound', question);
  if (isNotEvaluated(values)) return values;
  const factor = normalFactor(values.n, question);
  if (isNotEvaluated(factor)) return factor;
  const bound = values.mean - factor * values.sd;
  return { bound: distribution === 'lognormal' ? Math.exp(bound) : bound, factor, n: values.n };
}

function normalFactor(n: number, { of, m, confidence }: PredictionQuestion): number | NotEvaluated {
  const t = -tQuantile(1 - confidence, n - 1);
  if (of === 'mean') return t * Math.sqrt(1 / m + 1 / n);
  if (m === 1) return t * Math.sqrt(1 + 1 / n);
  const share = minimumOfFuture(n, m);
  const score = normalQuantile(confidence);
  // The chances of m single units together are more than that of the smallest, so the search starts beyond the root.
  const start = -tQuantile((1 - confidence) / m, n - 1) * Math.sqrt(1 + 1 / n);
  return settled(
    () =>
      rootOfIncreasing(
        (factor) => {
          const { above, below, slope } = share(factor);
          const scoreHere = above < below ? normalQuantile(above) : -normalQuantile(below);
          return { value: scoreHere - score, slope: slope / normalDensity(scoreHere) };
        },
        start,
        1,
        { tolerance: 1e-7 },
      ),
    () => notEvaluated('the search for the factor did not settle', 'the confidence lies less near to 0 or 1'),
  );
}

function weibullPrediction({ basis, of, m, confidence }: PredictionQuestion): Found | NotEvaluated {
  if (of === 'mean' && m > 1)
    return notEvaluated(
      'the mean of several Weibull strengths has no distribution that an exact bound could rest on',
      'the bound is asked for one unit or for all',
    );
  const sample = sampleOf(basis, 'weibull');
  if (isNotEvaluated(sample)) return sample;
  const fit = conditionalFit(sample);
  if (isNotEvaluated(fit)) return fit;
  return settled(
    () => ({
      bound: fit.scale * Math.exp(weibullMinimumPoint(fit.ancillary, m, confidence) / fit.shape),
      n: fit.n,
    }),
    () => notEvaluated('the search for the bound did not settle', 'more specimens are broken'),
  );
}

/** A Weibull fit of a sample that the conditional technique serves, with how its specimens lie relative to each other. */
export function conditionalFit(sample: Sample) {
  const unserved = whyNotConditional(sample);
  if (unserved) return unserved;
  const fit = estimateWeibull(sample);
  if (isNotEvaluated(fit)) return fit;
  const standardised = (strength: number) => fit.shape * Math.log(strength / fit.scale);
  const { exact = [], atLeast = [] } = sample;
  return { ...fit, ancillary: { broke: exact.map(standardised), held: atLeast.map(standardised) } };
}

function freePrediction({ basis, of, m, confidence }: PredictionQuestion): Found | NotEvaluated {
  if (of === 'mean' && m > 1)
    return notEvaluated(
      'the mean of several units has no bound without a distribution',
      'the plan declares a distribution',
    );
  const sample = sampleOf(basis, 'distribution-free');
  if (isNotEvaluated(sample)) return sample;
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues('predictionBound', 'exact', exact);
  // Not broken counts as broken there, between as at its lower end: both can only lower the bound.
  const known = [...exact, ...atLeast, ...between.map(([low]) => low)].sort((a, b) => a - b);
  const n = known.length + atMost.length;
  if (n === 0) return notEvaluated('the sample is empty', 'specimens are tested');
  let rank = 0;
  while (rank < n && chanceAllAbove(n, m, rank + 1) >= confidence * (1 - 1e-12)) rank++;
  if (rank === 0)
    return notEvaluated(
      `with ${n} specimens not even the weakest is a bound for ${m} future units at this confidence`,
      `at least ${Math.ceil(((confidence * m) / (1 - confidence)) * (1 - 1e-12))} specimens are tested`,
    );
  const bound = known[rank - atMost.length - 1];
  if (bound === undefined)
    return notEvaluated(
      `strength number ${rank} from the weakest is needed, and that one is known only as at most some value`,
      'the weakest strengths are known exactly or as at least',
    );
  return { bound, rank, n, achievedConfidence: chanceAllAbove(n, m, rank) };
}

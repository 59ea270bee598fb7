import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { chiSquareAbove } from '../distributions/chi-square.js';
import { type Fitted, maximumFor } from '../fits/location-scale-fit.js';
import { weibullModel } from '../fits/strength-model.js';
import { estimateWeibull, type WeibullEstimates, weibullLogLikelihood } from '../fits/weibull-fit.js';
import { settled } from '../numerics/no-convergence.js';
import { fitCommonShape } from './common-shape.js';

/** Twice the log-likelihood that one model gains over a narrower one. */
export interface LikelihoodRatio {
  statistic: number;
  df: number;
  p: number;
}

export interface WeibullComparison {
  method: 'Weibull likelihood ratios';
  /** Each sample with shape and scale of its own. */
  separate: [WeibullEstimates, WeibullEstimates];
  commonShape: { shape: number; scales: [number, number]; logLikelihood: number };
  /** Both samples as one. */
  common: WeibullEstimates;
  /** One shape, against separate. */
  equalShape: LikelihoodRatio;
  /** One scale as well, against one shape alone. */
  equalScaleGivenShape: LikelihoodRatio;
  /** One shape and scale, against separate. */
  equalBoth: LikelihoodRatio;
}

/**
 * Do two samples of strengths come from one Weibull distribution, or do they differ in shape or in scale? Three nested
 * models: separate (4 parameters), one shape (3), all alike (2);
 *
 *     statistic = 2 (ln L of the wider - ln L of the narrower model),     p by chi-square
 *
 * Strengths known from one side serve too. p is approximate and too small in small samples: of simulated pairs of alike
 * complete samples, a nominal 5 % calls out 8 to 11 % at 5 specimens each, 7 % at 10 and 6 % at 20.
 *
 * Hypothesis: the narrower model holds. Assumes specimens independent, and that what ended a test early had nothing to
 * do with how much more the specimen would have held. Smallest: 2 different strengths in each sample.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., section 5.4.
 */
export function weibullComparison(a: Sample, b: Sample): WeibullComparison | NotEvaluated {
  const first = fitAlone('a', a);
  if (isNotEvaluated(first)) return first;
  const second = fitAlone('b', b);
  if (isNotEvaluated(second)) return second;
  const common = estimateWeibull(together(a, b));
  if (isNotEvaluated(common)) return common;
  const shared = settled(
    () => fitCommonShape([first.fitted, second.fitted]),
    () =>
      notEvaluated(
        'the search for a common shape did not settle: the samples scatter too unlike each other',
        'the samples scatter more alike',
      ),
  );
  if (isNotEvaluated(shared)) return shared;

  const { shape } = shared;
  const scales = shared.scales as [number, number];
  const estimates = [first.estimates, second.estimates, common];
  const told = estimates.flatMap(({ scale, standardErrors }) => [scale, standardErrors.scale]);
  if (![...scales, ...told].every(isStrength))
    return notEvaluated(
      'the strengths known leave so wide a scatter open that no number holds the scale or its error',
      'more strengths are known exactly or within an interval',
    );
  const logLikelihood =
    weibullLogLikelihood(a, { shape, scale: scales[0] }) + weibullLogLikelihood(b, { shape, scale: scales[1] });
  const separate = first.estimates.logLikelihood + second.estimates.logLikelihood;
  return {
    method: 'Weibull likelihood ratios',
    separate: [first.estimates, second.estimates],
    commonShape: { shape, scales, logLikelihood },
    common,
    equalShape: ratio(separate, logLikelihood, 1),
    equalScaleGivenShape: ratio(logLikelihood, common.logLikelihood, 1),
    equalBoth: ratio(separate, common.logLikelihood, 2),
  };
}

function isStrength(value: number): boolean {
  return value > 0 && Number.isFinite(value);
}

function ratio(wider: number, narrower: number, df: number): LikelihoodRatio {
  // Where both models fit alike, rounding can turn the sign.
  const statistic = Math.max(0, 2 * (wider - narrower));
  return { statistic, df, p: chiSquareAbove(statistic, df) };
}

function together(a: Sample, b: Sample): Sample {
  return {
    exact: [...(a.exact ?? []), ...(b.exact ?? [])],
    atLeast: [...(a.atLeast ?? []), ...(b.atLeast ?? [])],
    atMost: [...(a.atMost ?? []), ...(b.atMost ?? [])],
    between: [...(a.between ?? []), ...(b.between ?? [])],
  };
}

function fitAlone(name: string, sample: Sample): { fitted: Fitted; estimates: WeibullEstimates } | NotEvaluated {
  const fitted = maximumFor('weibullComparison', weibullModel, sample);
  const estimates = estimateWeibull(sample);
  if (!isNotEvaluated(fitted) && !isNotEvaluated(estimates)) return { fitted, estimates };
  const { because, possibleIf } = (isNotEvaluated(fitted) ? fitted : (estimates as NotEvaluated)).notEvaluated;
  return notEvaluated(`sample ${name} has no fit of its own: ${because}`, possibleIf);
}

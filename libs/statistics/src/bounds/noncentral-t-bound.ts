import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { summary } from '../description/summary.js';
import { normalQuantile } from '../distributions/normal.js';
import { requireValues } from '../requirements.js';
import type { Aim, Found } from './lower-tolerance-bound.js';
import { normalToleranceFactor } from './normal-tolerance-factor.js';

/**
 * The lower tolerance bound of a normal population, or of one whose logarithm is normal:
 *
 *     bound = mean - k s        estimate = mean - z_coverage s        (of ln strength if lognormal)
 *
 * with k the one-sided factor by the noncentral t. Exact for complete samples of at least 2
 * strengths that differ; no other censoring is served, since k then depends on how the values lie.
 *
 * Source: Owen (1963), Sandia SCR-607; ISO 16269-6:2014.
 */
export function noncentralTBound(
  { sample, coverage, confidence }: Aim,
  distribution: 'normal' | 'lognormal',
): Found | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues('lowerToleranceBound', 'exact', exact);
  if (atLeast.length + atMost.length + between.length > 0)
    return notEvaluated(
      `some strengths are not known exactly, and the ${distribution} bound by noncentral t is exact for complete samples only`,
      'every specimen is taken to its break, or the plan declares a distribution-free or Weibull bound',
    );
  if (exact.length < 2)
    return notEvaluated(
      exact.length === 0 ? 'the sample is empty' : 'one strength says nothing about scatter',
      'at least 2 specimens are broken',
    );
  const logarithmic = distribution === 'lognormal';
  if (logarithmic && exact.some((value) => value <= 0))
    throw new RangeError('lowerToleranceBound: a lognormal strength is above 0; sample.exact holds one that is not.');

  const described = summary(logarithmic ? exact.map(Math.log) : exact);
  if ('notEvaluated' in described) return described;
  const { mean, sd } = described;
  if (typeof sd !== 'number') return sd;
  if (sd === 0)
    return notEvaluated(
      'all strengths are the same number, so nothing is known of their scatter',
      'strengths are read finely enough to differ',
    );

  const { k } = normalToleranceFactor({ n: exact.length, coverage, confidence });
  const back = logarithmic ? Math.exp : (value: number) => value;
  const bound = back(mean - k * sd);
  const estimate = back(mean - normalQuantile(coverage) * sd);
  if (!Number.isFinite(bound) || !Number.isFinite(estimate))
    return notEvaluated('the bound lies beyond every strength a number can hold', 'strengths scatter less');
  return {
    bound,
    estimate,
    achievedConfidence: confidence,
    factor: k,
    n: exact.length,
    failures: exact.length,
    assumptions: [logarithmic ? 'the logarithm of strength is normal' : 'strength is normal'],
  };
}

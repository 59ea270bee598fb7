import { type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { weibullQuantile } from '../distributions/weibull.js';
import { estimateWeibull } from '../fits/weibull-fit.js';
import type { Aim, Found } from './lower-tolerance-bound.js';
import { conditionalPivot } from './weibull-conditional.js';

/**
 * The lower tolerance bound of a Weibull population by the conditional technique:
 *
 *     bound = scale^ exp(-Z / shape^)
 *
 * with ^ the maximum-likelihood values and Z the point of the pivotal quantity at this confidence,
 * given how the specimens lie relative to each other (see `conditionalPivot`). Exact for complete
 * samples and for tests that ended at the r-th break; at least 2 specimens broken at different strengths.
 *
 * Source: Lawless (1975), Technometrics 17, 255-261; Lawless (1978), Technometrics 20, 355-368.
 */
export function conditionalWeibullBound({ sample, coverage, confidence }: Aim): Found | NotEvaluated {
  const unserved = whyNotConditional(sample);
  if (unserved) return unserved;
  const fit = estimateWeibull(sample);
  if ('notEvaluated' in fit) return fit;

  const { exact = [], atLeast = [] } = sample;
  const standardised = (strength: number) => fit.shape * Math.log(strength / fit.scale);
  const pivot = conditionalPivot(
    { broke: exact.map(standardised), held: atLeast.map(standardised) },
    coverage,
    confidence,
  );
  const bound = fit.scale * Math.exp(-pivot / fit.shape);
  if (!(bound > 0 && Number.isFinite(bound)))
    return notEvaluated(
      `the bound lies beyond every strength a number can hold (its logarithm is ${Math.log(fit.scale) - pivot / fit.shape})`,
      'more specimens are broken, or strengths scatter less',
    );
  return {
    bound,
    estimate: weibullQuantile(1 - coverage, fit),
    achievedConfidence: confidence,
    n: fit.n,
    failures: fit.failures,
    assumptions: [
      'strength follows a two-parameter Weibull distribution',
      ...(atLeast.length > 0 ? ['the test was planned to end at the last break counted here'] : []),
    ],
  };
}

/** Complete samples, and those whose survivors all held the strength of the last break, are served. */
export function whyNotConditional({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): NotEvaluated | undefined {
  if (atMost.length + between.length > 0)
    return notEvaluated(
      'some strengths are known only as at most or between, and no exact Weibull bound exists for them',
      'every strength is known exactly, or the test ended at its last break',
    );
  if (exact.length === 0 || atLeast.length === 0) return undefined;
  let last = Number.NEGATIVE_INFINITY;
  for (const strength of exact) last = Math.max(last, strength);
  if (atLeast.every((held) => held === last)) return undefined;
  return notEvaluated(
    'specimens were withdrawn at values other than the last break, and the exact Weibull bound ' +
      'holds for complete samples and tests that ended at the last break only',
    'every specimen is taken to its break, or the plan declares a distribution-free bound',
  );
}

import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFraction } from '../requirements.js';
import {
  type CombinedUncertainty,
  combineUncertainty,
  coverageFactor,
  type SourceCorrelation,
  type UncertaintySource,
} from './combine-uncertainty.js';

export interface ExpandedUncertainty {
  method: 'law of propagation of uncertainty';
  /** In the unit of the result. */
  combined: number;
  contributions: CombinedUncertainty['contributions'];
  effectiveDegreesOfFreedom: CombinedUncertainty['effectiveDegreesOfFreedom'];
  coverage: number;
  k: number | NotEvaluated;
  /** k times combined, in the unit of the result. */
  expanded: number | NotEvaluated;
}

/**
 * How wide is the interval about a result that covers its value with this probability?
 *
 *     U = k u,     u as `combineUncertainty`, k as `coverageFactor`
 *
 * Source: JCGM 100:2008 (GUM), 6.2.1 and G.6.4.
 */
export function expandedUncertainty(
  sources: readonly UncertaintySource[],
  correlations: readonly SourceCorrelation[],
  coverage: number,
): ExpandedUncertainty {
  requireFraction('expandedUncertainty', { coverage });
  const { method, standard, contributions, effectiveDegreesOfFreedom } = combineUncertainty(sources, correlations);
  const k = factorFor(effectiveDegreesOfFreedom, coverage);
  return {
    method,
    combined: standard,
    contributions,
    effectiveDegreesOfFreedom,
    coverage,
    k,
    expanded: isNotEvaluated(k) ? k : k * standard,
  };
}

function factorFor(degrees: ExpandedUncertainty['effectiveDegreesOfFreedom'], coverage: number): number | NotEvaluated {
  if (isNotEvaluated(degrees)) return degrees;
  if (degrees !== 'unlimited' && degrees < 1)
    return notEvaluated(
      `${degrees} effective degrees of freedom are less than the 1 that Student's t begins with`,
      'the largest source is known from more observations',
    );
  return coverageFactor(degrees, coverage);
}

import { isNotEvaluated, type NotEvaluated, type Sample } from '@breakbook/lab';
import { maximumFor } from '../fits/location-scale-fit.js';
import { type StrengthModel, strengthModels } from '../fits/strength-model.js';
import { requireFinite, requireFraction, requirePositive } from '../requirements.js';
import { whyNotPivotal } from './calibrated-bound.js';
import { COARSE, FINE, pivotalQuantile } from './pivotal-quantile.js';
import { whyNotConditional } from './why-not-conditional.js';

export interface ToleranceConfidence {
  method: 'tolerance confidence';
  confidence: number;
  /** True for complete samples and tests ended at the last break; otherwise the generalised pivotal distribution is taken. */
  exact: boolean;
  n: number;
  failures: number;
}

/**
 * With what confidence does at least this share of the population exceed a given strength? The inverse of
 * `lowerToleranceBound`: the confidence at which its bound would lie on that strength, by the conditional technique where
 * that is exact and by the generalised pivotal distribution for other censoring (see `pivotalQuantile`), whose coverage
 * docs/coverage.md has simulated.
 *
 * `coarse` takes about four digits, for simulations that ask a thousand times.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., appendix E.
 */
export function toleranceConfidence(
  sample: Sample,
  {
    coverage,
    strength,
    distribution,
    coarse = false,
  }: { coverage: number; strength: number; distribution: StrengthModel['distribution']; coarse?: boolean },
): ToleranceConfidence | NotEvaluated {
  requireFraction('toleranceConfidence', { coverage });
  const model = strengthModels[distribution];
  (model.logarithmic ? requirePositive : requireFinite)('toleranceConfidence', { strength });
  const fitted = maximumFor('toleranceConfidence', model, sample);
  if (isNotEvaluated(fitted)) return fitted;
  const unserved = whyNotPivotal(fitted);
  if (unserved) return unserved;
  const { centre, spread, observations } = fitted.likelihood;
  const y = ((model.logarithmic ? Math.log(strength) : strength) - centre) / spread;
  const given = pivotalQuantile(fitted, model.family.quantile(1 - coverage), coarse ? COARSE : FINE);
  return {
    method: 'tolerance confidence',
    confidence: given(y).above,
    exact: whyNotConditional(sample) === undefined,
    n: observations.n,
    failures: observations.failures,
  };
}

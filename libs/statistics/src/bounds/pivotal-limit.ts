import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalDensity, normalQuantile } from '../distributions/normal.js';
import type { Fitted } from '../fits/location-scale-fit.js';
import { waldOf } from '../fits/quantity.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { settled } from '../numerics/no-convergence.js';
import { pivotalQuantile } from './pivotal-quantile.js';

/**
 * The value that the quantile at `z` exceeds with this confidence, by its pivotal distribution; on the standardised scale
 * of the likelihood. Newton's method on the normal score of the probability, which is nearly straight.
 */
export function pivotalLowerLimit(fitted: Fitted, z: number, confidence: number): number | NotEvaluated {
  const given = pivotalQuantile(fitted, z);
  const { estimate, standardError } = waldOf({ kind: 'value', z }, fitted.maximum);
  const score = -normalQuantile(confidence);
  const scoreAt = (y: number) => {
    const { below, above, slope } = given(y);
    const scoreHere = below < above ? normalQuantile(below) : -normalQuantile(above);
    return { value: scoreHere - score, slope: slope / normalDensity(scoreHere) };
  };
  return settled(
    () => rootOfIncreasing(scoreAt, estimate + 1.3 * score * standardError, standardError),
    () =>
      notEvaluated(
        'the search for the bound did not settle: it lies too far out, or the specimens are too nearly alike',
        'the confidence or the coverage is lower, or more specimens are tested',
      ),
  );
}

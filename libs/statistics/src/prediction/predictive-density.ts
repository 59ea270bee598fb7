import lgamma from '@stdlib/math-base-special-gammaln';
import { requirePositive } from '../requirements.js';

/**
 * How dense future values lie at `off` from the centre of a reference: Student's t with these degrees of freedom, stretched
 * by the root of the variance of a future value about that centre. In one over the unit of `off`.
 *
 * Source: Geisser (1993), Predictive Inference, chapter 2; variance and degrees of several lots as in `futureSpread`.
 */
export function logPredictiveDensity(
  off: number,
  { variance, degrees }: { variance: number; degrees: number },
): number {
  requirePositive('logPredictiveDensity', { variance, degrees });
  const square = (off * off) / (variance * degrees);
  return (
    lgamma((degrees + 1) / 2) -
    lgamma(degrees / 2) -
    0.5 * Math.log(Math.PI * degrees * variance) -
    ((degrees + 1) / 2) * Math.log1p(square)
  );
}

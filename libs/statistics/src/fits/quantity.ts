import type { Maximum } from './maximum.js';

/**
 * A quantity read off a location-scale fit: one of
 * - the logarithm of the slope (of one over the scale);
 * - the value y at which the standardised value is `z`: a quantile, or the location;
 * - the standardised value at a given `y`: a reliability.
 * All on the standardised scale of the likelihood.
 */
export type Quantity = { kind: 'logSlope' } | { kind: 'value'; z: number } | { kind: 'score'; y: number };

/** Variances of intercept and slope, and their covariance. */
export interface Covariance {
  intercept: number;
  slope: number;
  both: number;
}

/** The covariance at a maximum: the inverse of the observed information. */
export function covarianceAt({ at }: Maximum): Covariance {
  const determinant = at.byInterceptTwice * at.bySlopeTwice - at.byBoth * at.byBoth;
  return {
    intercept: -at.bySlopeTwice / determinant,
    slope: -at.byInterceptTwice / determinant,
    both: at.byBoth / determinant,
  };
}

/** Variance of the standardised value at y. */
export function varianceOfScoreAt(y: number, { intercept, slope, both }: Covariance): number {
  return intercept + 2 * y * both + y * y * slope;
}

/** Estimate and standard error of a quantity, by the curvature of the likelihood at its maximum. */
export function waldOf(quantity: Quantity, maximum: Maximum): { estimate: number; standardError: number } {
  const { intercept, slope } = maximum;
  const covariance = covarianceAt(maximum);
  const [estimate, byIntercept, bySlope] = readOff(quantity, intercept, slope);
  const variance =
    byIntercept * byIntercept * covariance.intercept +
    2 * byIntercept * bySlope * covariance.both +
    bySlope * bySlope * covariance.slope;
  return { estimate, standardError: Math.sqrt(variance) };
}

function readOff(quantity: Quantity, intercept: number, slope: number): [number, number, number] {
  switch (quantity.kind) {
    case 'logSlope':
      return [Math.log(slope), 0, 1 / slope];
    case 'score':
      return [intercept + slope * quantity.y, 1, quantity.y];
    case 'value': {
      const y = (quantity.z - intercept) / slope;
      return [y, -1 / slope, -y / slope];
    }
  }
}

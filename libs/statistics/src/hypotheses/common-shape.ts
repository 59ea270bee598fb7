import type { Fitted } from '../fits/location-scale-fit.js';
import { rootOfIncreasing } from '../numerics/find-root.js';

/** Several Weibull samples under one shape, each with a scale of its own. */
export interface CommonShape {
  shape: number;
  /** One for each sample, in its unit. */
  scales: number[];
}

/**
 * The common shape of several Weibull samples that makes them likeliest, each with the scale that suits it best then:
 * the root of
 *
 *     sum over samples of d ln L_i / d ln shape     along the best scale of each
 *
 * found by Newton's method; for one given shape the best scale of a sample is a root of its own.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., section 5.4.
 */
export function fitCommonShape(fits: readonly Fitted[]): CommonShape {
  const shapeOf = ({ likelihood, maximum }: Fitted) => maximum.slope / likelihood.spread;
  const logShapes = fits.map((fit) => Math.log(shapeOf(fit)));
  const start = logShapes.reduce((sum, logShape) => sum + logShape, 0) / fits.length;
  const logShape = rootOfIncreasing(
    (tried) => {
      let [value, slope] = [0, 0];
      for (const fit of fits) {
        const { along, curvature } = atShape(fit, Math.exp(tried));
        value -= along;
        slope -= curvature;
      }
      return { value, slope };
    },
    start,
    0.1,
  );
  const shape = Math.exp(logShape);
  return {
    shape,
    scales: fits.map((fit) => {
      const { intercept, slope } = atShape(fit, shape);
      return Math.exp(fit.likelihood.locationAndScale(intercept, slope).location);
    }),
  };
}

/** The best scale of one sample under a given shape, and how its log-likelihood changes along there with ln shape. */
function atShape({ likelihood, maximum }: Fitted, shape: number) {
  const slope = shape * likelihood.spread;
  const intercept = rootOfIncreasing(
    (tried) => {
      const { byIntercept, byInterceptTwice } = likelihood.at(tried, slope);
      return { value: -byIntercept, slope: -byInterceptTwice };
    },
    maximum.intercept,
    1,
  );
  const at = likelihood.at(intercept, slope);
  const along = slope * at.bySlope;
  return {
    intercept,
    slope,
    along,
    curvature: along + slope * slope * (at.bySlopeTwice - at.byBoth ** 2 / at.byInterceptTwice),
  };
}

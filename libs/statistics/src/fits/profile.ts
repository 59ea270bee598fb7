import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { settled } from '../numerics/no-convergence.js';
import type { Likelihood } from './likelihood.js';
import type { Maximum } from './maximum.js';
import { covarianceAt, type Quantity, varianceOfScoreAt, waldOf } from './quantity.js';

/**
 * The profile-likelihood limit of a quantity: the value at which the signed root of twice the drop
 * of the profile log-likelihood equals a normal score. The score is -1.645 for the lower end of a
 * 90 % interval, which is a lower bound of 95 %.
 *
 * The profile likelihood at a value of the quantity is the largest likelihood of all intercepts and
 * slopes that give it; its derivative is that of the likelihood at that place, so the outer search is
 * Newton's method too, on the signed root, which is nearly straight.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., appendix C and section 5.1.
 */
export function profileLimit(
  quantity: Quantity,
  likelihood: Likelihood,
  maximum: Maximum,
  score: number,
): number | NotEvaluated {
  const { estimate, standardError } = waldOf(quantity, maximum);
  // So near to the maximum the likelihood is a parabola, and its drop is lost in rounding.
  if (Math.abs(score) < 1e-5) return estimate + score * standardError;
  const floor = profileAtInfinity(quantity, likelihood, score);
  if (2 * (maximum.at.value - floor) <= score * score)
    return notEvaluated(
      'the likelihood falls too little for this confidence, however far the value is taken',
      'more specimens are tested, or strengths are known exactly or within an interval',
    );
  const along = profileAlong(quantity, likelihood, maximum);
  const signedRoot = (value: number) => {
    const { top, slope } = along(value);
    const root = Math.sign(value - estimate) * Math.sqrt(Math.max(0, 2 * (maximum.at.value - top)));
    // Within rounding of the maximum the root carries no digits; there its slope is that of the curvature.
    return { value: root - score, slope: Math.abs(root) < 1e-4 ? 1 / standardError : -slope / root };
  };
  return settled(
    () => rootOfIncreasing(signedRoot, estimate + score * standardError, standardError),
    () =>
      notEvaluated(
        'the search for the limit did not settle: it lies too far out, or the specimens are too nearly alike',
        'the confidence is lower, or more specimens are tested',
      ),
  );
}

/**
 * The profile likelihood and its derivative. Each search for its top starts from where the top would
 * lie if the likelihood were normal: the maximum, moved along its covariance to the value asked for.
 */
function profileAlong(
  quantity: Quantity,
  likelihood: Likelihood,
  maximum: Maximum,
): (value: number) => { top: number; slope: number } {
  const covariance = covarianceAt(maximum);
  if (quantity.kind === 'logSlope')
    return (logarithm) => {
      const fixed = Math.exp(logarithm);
      const intercept = rootOfIncreasing(
        (tried) => {
          const { byIntercept, byInterceptTwice } = likelihood.at(tried, fixed);
          return { value: -byIntercept, slope: -byInterceptTwice };
        },
        maximum.intercept + (covariance.both / covariance.slope) * (fixed - maximum.slope),
        1,
      );
      const at = likelihood.at(intercept, fixed);
      return { top: at.value, slope: fixed * at.bySlope };
    };

  const oneSidedOnly = knownFromOneSideOnly(likelihood);
  return (value) => {
    const z = quantity.kind === 'value' ? quantity.z : value;
    const y = quantity.kind === 'value' ? value : quantity.y;
    // In the logarithm of the slope, which keeps it above 0 and finds a tiny one as fast as a large one.
    const falling = (logarithm: number) => {
      const tried = Math.exp(logarithm);
      const at = likelihood.at(z - tried * y, tried);
      const value = tried * (y * at.byIntercept - at.bySlope);
      const curvature = at.bySlopeTwice - 2 * y * at.byBoth + y * y * at.byInterceptTwice;
      return { value, slope: value - tried * tried * curvature };
    };
    const off = z - maximum.intercept - maximum.slope * y;
    const moved = (off * (covariance.both + y * covariance.slope)) / varianceOfScoreAt(y, covariance);
    const guess = Math.log(Math.max(maximum.slope + moved, maximum.slope / 10));
    // Known from one side only, the likelihood can be largest where the scale has grown without end.
    const endless = oneSidedOnly && endlessScaleIsBest(likelihood, z, y);
    const slope = endless ? 0 : Math.exp(rootOfIncreasing(falling, guess, 1));
    const at = likelihood.at(z - slope * y, slope);
    return { top: at.value, slope: quantity.kind === 'value' ? -slope * at.byIntercept : at.byIntercept };
  };
}

/** Does the likelihood along z = intercept + slope y fall from the very beginning, where the slope is 0? */
function endlessScaleIsBest(likelihood: Likelihood, z: number, y: number): boolean {
  const at = likelihood.at(z, 0);
  return y * at.byIntercept - at.bySlope >= 0;
}

/**
 * What the profile likelihood tends to on the side of the score as the scale grows without end. It
 * falls to nothing there as soon as one strength is known exactly or within an interval; where
 * specimens are known from one side only it tends to the likelihood of a share broken that does not
 * depend on the value.
 */
function profileAtInfinity(quantity: Quantity, likelihood: Likelihood, score: number): number {
  const { family, observations } = likelihood;
  const { atLeast, atMost } = observations;
  const endless = quantity.kind === 'value' || (quantity.kind === 'logSlope' && score < 0);
  if (!endless || !knownFromOneSideOnly(likelihood)) return Number.NEGATIVE_INFINITY;
  const commonShare = family.quantile(atMost.length / (atMost.length + atLeast.length));
  let z = commonShare;
  if (quantity.kind === 'value') z = score > 0 ? Math.min(commonShare, quantity.z) : Math.max(commonShare, quantity.z);
  const out = new Float64Array(3);
  family.failure(z, out);
  const broke = atMost.length * (out[0] as number);
  family.survival(z, out);
  return broke + atLeast.length * (out[0] as number);
}

function knownFromOneSideOnly({ observations: { exact, lower } }: Likelihood): boolean {
  return exact.length === 0 && lower.length === 0;
}

/** The two normal scores between which an interval of this two-sided confidence lies. */
export function twoSidedScores(confidence: number): [number, number] {
  const score = -normalQuantile((1 - confidence) / 2);
  return [-score, score];
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalQuantile } from '../distributions/normal.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import type { Likelihood } from './likelihood.js';
import type { Maximum } from './maximum.js';

/**
 * A quantity read off a location-scale fit: one of
 * - the slope itself (one over the scale);
 * - the value y at which the standardised value is `z`: a quantile, or the location;
 * - the standardised value at a given `y`: a reliability.
 * All on the standardised scale of the likelihood.
 */
export type Quantity = { kind: 'slope' } | { kind: 'value'; z: number } | { kind: 'score'; y: number };

/** Estimate and standard error of a quantity, by the curvature of the likelihood at its maximum. */
export function waldOf(quantity: Quantity, maximum: Maximum): { estimate: number; standardError: number } {
  const { intercept, slope, at } = maximum;
  const determinant = at.byInterceptTwice * at.bySlopeTwice - at.byBoth * at.byBoth;
  const interceptVariance = -at.bySlopeTwice / determinant;
  const slopeVariance = -at.byInterceptTwice / determinant;
  const covariance = at.byBoth / determinant;
  const [estimate, byIntercept, bySlope] = readOff(quantity, intercept, slope);
  const variance =
    byIntercept * byIntercept * interceptVariance +
    2 * byIntercept * bySlope * covariance +
    bySlope * bySlope * slopeVariance;
  return { estimate, standardError: Math.sqrt(variance) };
}

function readOff(quantity: Quantity, intercept: number, slope: number): [number, number, number] {
  switch (quantity.kind) {
    case 'slope':
      return [slope, 0, 1];
    case 'score':
      return [intercept + slope * quantity.y, 1, quantity.y];
    case 'value': {
      const y = (quantity.z - intercept) / slope;
      return [y, -1 / slope, -y / slope];
    }
  }
}

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
  if (score === 0) return estimate;
  const floor = profileAtInfinity(quantity, likelihood, score);
  if (2 * (maximum.at.value - floor) <= score * score)
    return notEvaluated(
      'the likelihood falls too little for this confidence, however far the value is taken',
      'more specimens are tested, or strengths are known exactly or within an interval',
    );
  const along = profileAlong(quantity, likelihood, maximum);
  return rootOfIncreasing(
    (value) => {
      const { top, slope } = along(value);
      const root = Math.sign(value - estimate) * Math.sqrt(Math.max(0, 2 * (maximum.at.value - top)));
      // Within rounding of the maximum the root carries no digits; there its slope is that of the curvature.
      return { value: root - score, slope: Math.abs(root) < 1e-4 ? 1 / standardError : -slope / root };
    },
    firstGuess(quantity, estimate, standardError, score),
    standardError,
    quantity.kind === 'slope' ? { from: 0 } : {},
  );
}

function firstGuess(quantity: Quantity, estimate: number, standardError: number, score: number): number {
  // The slope is positive and its likelihood leans: its logarithm is nearer to normal.
  if (quantity.kind === 'slope') return estimate * Math.exp((score * standardError) / estimate);
  return estimate + score * standardError;
}

type Profile = (value: number) => { top: number; slope: number };

/** The profile likelihood and its derivative; each search starts from where the one before ended. */
function profileAlong(quantity: Quantity, likelihood: Likelihood, maximum: Maximum): Profile {
  let { intercept, slope } = maximum;
  if (quantity.kind === 'slope')
    return (fixed) => {
      intercept = rootOfIncreasing(
        (tried) => {
          const { byIntercept, byInterceptTwice } = likelihood.at(tried, fixed);
          return { value: -byIntercept, slope: -byInterceptTwice };
        },
        intercept,
        1,
      );
      const at = likelihood.at(intercept, fixed);
      return { top: at.value, slope: at.bySlope };
    };

  const oneSidedOnly = knownFromOneSideOnly(likelihood);
  return (value) => {
    const z = quantity.kind === 'value' ? quantity.z : value;
    const y = quantity.kind === 'value' ? value : quantity.y;
    const falling = (tried: number) => {
      const at = likelihood.at(z - tried * y, tried);
      return {
        value: y * at.byIntercept - at.bySlope,
        slope: -(at.bySlopeTwice - 2 * y * at.byBoth + y * y * at.byInterceptTwice),
      };
    };
    // Known from one side only, the likelihood can be largest where the scale has grown without end.
    if (oneSidedOnly && falling(0).value >= 0) slope = 0;
    else slope = rootOfIncreasing(falling, slope || maximum.slope, slope || maximum.slope, { from: 0 });
    const at = likelihood.at(z - slope * y, slope);
    return { top: at.value, slope: quantity.kind === 'value' ? -slope * at.byIntercept : at.byIntercept };
  };
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
  const endless = quantity.kind === 'value' || (quantity.kind === 'slope' && score < 0);
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

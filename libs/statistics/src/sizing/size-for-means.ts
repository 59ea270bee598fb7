import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { noncentralT } from '../distributions/noncentral-t.js';
import { requireFraction, requirePositive } from '../requirements.js';
import { LARGEST_SIZE, smallestThat } from './smallest.js';

/** How far the mean of n values may lie from that of the population. */
export interface MeanLimitsGoal {
  halfWidth: number;
  /** Standard deviation expected, in the unit of halfWidth. */
  sd: number;
  /** Two-sided. */
  confidence: number;
}

/** A shift that is to be seen. */
export interface ShiftGoal {
  /** In the unit of sd. */
  shift: number;
  sd: number;
  /** Chance of a false alarm. */
  alpha: number;
  /** Chance to see the shift. */
  power: number;
  sides: 1 | 2;
}

/**
 * How many values are needed so that the limits of their mean reach no farther than this half width? The smallest n with
 *
 *     t((1 + confidence) / 2; n - 1) sd / sqrt n <= halfWidth
 *
 * for a scatter that comes out as expected. Smallest: 2.
 *
 * Source: NIST/SEMATECH e-Handbook, section 7.2.2.2.
 */
export function sizeForMeanLimits({
  halfWidth,
  sd,
  confidence,
}: MeanLimitsGoal): { n: number; halfWidth: number } | NotEvaluated {
  requirePositive('sizeForMeanLimits', { halfWidth, sd });
  requireFraction('sizeForMeanLimits', { confidence });
  const reach = (n: number) => (-tQuantile((1 - confidence) / 2, n - 1) * sd) / Math.sqrt(n);
  const n = smallestThat((tried) => reach(tried) <= halfWidth, 2);
  return n === undefined ? tooMany('a wider interval is enough') : { n, halfWidth: reach(n) };
}

/**
 * How many values are needed to see a shift of a mean from a known one, by Student's test? The smallest n whose
 *
 *     power = P(T > t(1 - alpha; n - 1)),     T noncentral t, n - 1 degrees of freedom, shift / sd sqrt n
 *
 * is large enough (two-sided: alpha / 2 on both sides).
 *
 * Source: Cohen (1988), Statistical Power Analysis, chapter 2, by the exact noncentral t.
 */
export function sizeForOneSample(goal: ShiftGoal): { n: number; power: number } | NotEvaluated {
  return sizeForShift(goal, (n) => ({ degrees: n - 1, scale: Math.sqrt(n) }));
}

/** The same for the difference of two means, n values in each group: 2 n - 2 degrees of freedom, shift / sd sqrt(n / 2). */
export function sizeForTwoSamples(goal: ShiftGoal): { n: number; power: number } | NotEvaluated {
  return sizeForShift(goal, (n) => ({ degrees: 2 * n - 2, scale: Math.sqrt(n / 2) }));
}

function sizeForShift(
  { shift, sd, alpha, power, sides }: ShiftGoal,
  design: (n: number) => { degrees: number; scale: number },
): { n: number; power: number } | NotEvaluated {
  requirePositive('sizeForShift', { shift, sd });
  requireFraction('sizeForShift', { alpha, power });
  const reached = (n: number) => {
    const { degrees, scale } = design(n);
    const critical = -tQuantile(alpha / sides, degrees);
    const delta = (shift / sd) * scale;
    const seen = isBeyondDoubt(critical, delta) ? 1 : noncentralT(critical, degrees, delta).above;
    // Below zero lies only what has Z < -delta.
    return sides === 1 || delta > CERTAIN_SCORE ? seen : seen + noncentralT(-critical, degrees, delta).below;
  };
  const n = smallestThat((tried) => reached(tried) >= power, 2);
  return n === undefined ? tooMany('a larger shift, or less power, is enough') : { n, power: reached(n) };
}

/** Chance beyond this score is less than a double can add to one. */
const CERTAIN_SCORE = 9;

/**
 * A noncentral t below the critical value needs Z < -delta / 2, or sqrt(X / degrees) > delta / (2 critical). By Chernoff's
 * bound both together have a chance below 1e-16 here, for any number of degrees of freedom.
 */
function isBeyondDoubt(critical: number, delta: number): boolean {
  return delta > 2 * CERTAIN_SCORE * Math.max(1, critical);
}

function tooMany(possibleIf: string): NotEvaluated {
  return notEvaluated(`not even ${LARGEST_SIZE} values would be enough`, possibleIf);
}

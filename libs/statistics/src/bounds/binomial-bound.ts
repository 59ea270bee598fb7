import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { hypergeometricCdf } from '../distributions/hypergeometric.js';
import { requireCount, requireFraction } from '../requirements.js';

/** What a count of failures says about the share of a population that fails. Shares are fractions. */
export interface BinomialBound {
  method: 'binomial bound';
  n: number;
  failures: number;
  /** One-sided for `reliabilityLower`, two-sided for `failureLimits`. */
  confidence: number;
  /** Share of the population that holds, in the sample. */
  estimate: number;
  /** At least this share of the population holds. */
  reliabilityLower: number;
  /** The share that fails lies between these. */
  failureLimits: [number, number];
  lotSize?: number;
}

export interface FailureCount {
  n: number;
  failures: number;
  confidence: number;
  /** Units in the lot, those tested included, if the claim is about this lot alone. */
  lotSize?: number | undefined;
}

/**
 * What share of the population holds, when so many of n specimens failed? Exact limits:
 *
 *     reliability lower = B(1 - C; n - f, f + 1)
 *     failing between     B((1 - C)/2; f, n - f + 1)  and  B((1 + C)/2; f + 1, n - f)
 *
 * with B the beta quantile, f the failures and C the confidence. For a lot of N units the same by
 * counting: the largest and smallest numbers of bad units that the sample does not contradict.
 *
 * Assumes specimens drawn at random; assumes no distribution of strength. Conservative: the
 * confidence is at least the one stated.
 *
 * Source: Clopper and Pearson (1934), Biometrika 26, 404-413; for lots Buonaccorsi (1987),
 * Amer. Statist. 41, 215-218.
 */
export function binomialBound({ n, failures, confidence, lotSize }: FailureCount): BinomialBound | NotEvaluated {
  requireFraction('binomialBound', { confidence });
  requireCount('binomialBound', { n, failures });
  if (failures > n) throw new RangeError(`binomialBound: ${failures} failures among ${n} specimens cannot be.`);
  if (n === 0) return notEvaluated('no specimen was tested', 'at least 1 specimen is tested');
  if (lotSize !== undefined) {
    requireCount('binomialBound', { lotSize }, 1);
    if (n > lotSize) throw new RangeError(`binomialBound: ${n} specimens cannot come from a lot of ${lotSize}.`);
  }

  const { holds, fails, leastFailing } =
    lotSize === undefined ? processShares(n, failures) : lotShares(n, failures, lotSize);
  const outside = (1 - confidence) / 2;
  return {
    method: 'binomial bound',
    n,
    failures,
    confidence,
    estimate: (n - failures) / n,
    reliabilityLower: holds(1 - confidence),
    failureLimits: [leastFailing(outside), fails(outside)],
    ...(lotSize === undefined ? {} : { lotSize }),
  };
}

/** Shares that the sample contradicts with no more than a given risk of error. */
interface Shares {
  /** The smallest share holding, and beside it the largest share failing, without loss of digits. */
  holds(risk: number): number;
  fails(risk: number): number;
  leastFailing(risk: number): number;
}

function processShares(n: number, failures: number): Shares {
  return {
    holds: (risk) => (failures === n ? 0 : betaQuantile(risk, n - failures, failures + 1)),
    fails: (risk) => (failures === n ? 1 : betaQuantile(1 - risk, failures + 1, n - failures)),
    leastFailing: (risk) => (failures === 0 ? 0 : betaQuantile(risk, failures, n - failures + 1)),
  };
}

function lotShares(n: number, failures: number, lotSize: number): Shares {
  return {
    holds: (risk) => (lotSize - mostBad(n, failures, lotSize, risk)) / lotSize,
    fails: (risk) => mostBad(n, failures, lotSize, risk) / lotSize,
    // The fewest bad are what the most good leave over.
    leastFailing: (risk) => (lotSize - mostBad(n, n - failures, lotSize, risk)) / lotSize,
  };
}

/** The largest number of bad units in the lot under which so few bad in the sample still has more than this chance. */
function mostBad(n: number, badInSample: number, lotSize: number, risk: number): number {
  let consistent = badInSample;
  let tooMany = lotSize - (n - badInSample) + 1;
  while (tooMany - consistent > 1) {
    const middle = Math.floor((consistent + tooMany) / 2);
    if (hypergeometricCdf(badInSample, { size: lotSize, marked: middle, drawn: n }) > risk) consistent = middle;
    else tooMany = middle;
  }
  return consistent;
}

import { binomialCdf } from '../distributions/binomial.js';
import { hypergeometricCdf } from '../distributions/hypergeometric.js';

/**
 * The population a claim "at least this share is good" speaks of: a process without end, or a lot
 * of so many units, those tested included.
 */
export interface Claim {
  /** The share claimed to be good, a fraction. */
  share: number;
  lotSize?: number | undefined;
}

/** Fewest bad units in a lot that make "at least this share is good" untrue. */
export function fewestBad({ share, lotSize }: { share: number; lotSize: number }): number {
  const good = share * lotSize;
  // 0.07 * 100 is a little more than 7 in floating point; such a hair must not ask for one more good unit.
  const whole = Math.round(good);
  const needed = Math.abs(good - whole) < 1e-9 * lotSize ? whole : Math.ceil(good);
  return lotSize - Math.max(1, needed) + 1;
}

/**
 * The greatest probability that at most `bad` of `n` units drawn at random are bad although the
 * claim is untrue: binomial for a process, hypergeometric for a lot. One minus it is the confidence
 * that such a sample gives to the claim.
 */
export function chanceIfUntrue(bad: number, n: number, { share, lotSize }: Claim): number {
  if (lotSize === undefined) return binomialCdf(bad, n, 1 - share);
  return hypergeometricCdf(bad, { size: lotSize, marked: fewestBad({ share, lotSize }), drawn: n });
}

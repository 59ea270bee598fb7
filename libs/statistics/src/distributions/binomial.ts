import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import { requireCount } from '../requirements.js';

/**
 * Probability that at most `count` of `trials` independent trials show an event of probability
 * `probability`: the regularised incomplete beta function I(1 - p; trials - count, count + 1).
 *
 * Source: Johnson, Kemp and Kotz (2005), Univariate Discrete Distributions, 3rd ed., section 3.2.
 */
export function binomialCdf(count: number, trials: number, probability: number): number {
  requireCount('binomialCdf', { trials });
  if (!(probability >= 0 && probability <= 1))
    throw new RangeError(`binomialCdf: probability must lie between 0 and 1; got ${probability}.`);
  if (count < 0) return 0;
  if (count >= trials) return 1;
  return betaCdf(1 - probability, trials - count, count + 1);
}

import { type Distribution, isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { centred } from '../description/centred.js';
import { normalUpperTail } from '../distributions/normal-tail.js';
import { estimateWeibull } from '../fits/weibull-fit.js';
import { requireValues } from '../requirements.js';

/** Distributions whose fit can be doubted by this test. */
export type TestedDistribution = Exclude<Distribution, 'distribution-free'>;

export interface AndersonDarling {
  method: 'Anderson-Darling';
  distribution: TestedDistribution;
  n: number;
  statistic: number;
  /** The statistic, adjusted for the size of the sample. */
  adjusted: number;
  /** Observed significance level: a fraction; small where the distribution explains the values poorly. */
  significance: number;
}

/** At 4 values the adjustment for size takes away more than half of the statistic, at 3 it turns its sign. */
const FEWEST = 5;

/** ln F and ln (1 - F) of one value under the distribution fitted. */
type LogShares = readonly [number, number];

/**
 * Do these values look as if they came from this distribution, its two parameters estimated from them?
 *
 *     statistic = -n - (1 / n) sum over i of (2 i - 1) (ln F(x_i) + ln (1 - F(x_(n + 1 - i))))
 *     normal, lognormal   adjusted = (1 + 4 / n - 25 / n^2) statistic
 *                         significance = 1 / (1 + exp(-0.48 + 0.78 ln adjusted + 4.58 adjusted))
 *     weibull             adjusted = (1 + 0.2 / sqrt n) statistic
 *                         significance = 1 / (1 + exp(-0.10 + 1.24 ln adjusted + 4.48 adjusted))
 *
 * with x_i in ascending order; mean and s (divisor n - 1) of the values or of their logarithms, maximum
 * likelihood for Weibull. The handbook doubts the distribution at a significance of 0.05 or less.
 *
 * Hypothesis: the values are a random sample of such a distribution. Complete samples only: with some
 * strengths known from one side the significance has no known form. Smallest n: 5.
 *
 * Source: MIL-HDBK-17-1F (2002), volume 1, section 8.3.4; Stephens (1974), J. Amer. Statist. Assoc. 69, 730-737.
 */
export function andersonDarling(sample: Sample, distribution: TestedDistribution): AndersonDarling | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  requireValues('andersonDarling', 'exact', exact);
  if (atLeast.length + atMost.length + between.length > 0)
    return notEvaluated(
      'some strengths are not known exactly, and the significance of the fit is known for complete samples only',
      'every specimen is taken to its break',
    );
  if (exact.length < FEWEST)
    return notEvaluated(
      `${exact.length} values are too few to doubt a distribution by`,
      `at least ${FEWEST} specimens are broken`,
    );
  const logarithmic = distribution !== 'normal';
  if (logarithmic && exact.some((value) => value <= 0))
    throw new RangeError(`andersonDarling: a ${distribution} strength is above 0; one of the values is not.`);

  const sorted = exact.toSorted((a, b) => a - b);
  if (sorted[0] === sorted.at(-1))
    return notEvaluated('all values are the same number', 'values are read finely enough to differ');
  const shares =
    distribution === 'weibull' ? weibullShares(sorted) : normalShares(logarithmic ? sorted.map(Math.log) : sorted);
  if (isNotEvaluated(shares)) return shares;

  const statistic = statisticOf(shares);
  const n = sorted.length;
  const adjusted = statistic * (distribution === 'weibull' ? 1 + 0.2 / Math.sqrt(n) : 1 + 4 / n - 25 / (n * n));
  const [constant, byLogarithm, bySize] = distribution === 'weibull' ? [-0.1, 1.24, 4.48] : [-0.48, 0.78, 4.58];
  const exponent = constant + byLogarithm * Math.log(adjusted) + bySize * adjusted;
  return {
    method: 'Anderson-Darling',
    distribution,
    n,
    statistic,
    adjusted,
    significance: 1 / (1 + Math.exp(exponent)),
  };
}

function statisticOf(shares: readonly LogShares[]): number {
  const n = shares.length;
  let sum = 0;
  shares.forEach(([logBelow], index) => {
    const [, logAbove] = shares[n - 1 - index] as LogShares;
    sum += (2 * index + 1) * (logBelow + logAbove);
  });
  return -n - sum / n;
}

function normalShares(sorted: readonly number[]): LogShares[] {
  const { n, deviations, squares } = centred(sorted);
  const sd = Math.sqrt(squares / (n - 1));
  const out = new Float64Array(3);
  const logAbove = (z: number) => {
    normalUpperTail(z, out);
    return out[0] as number;
  };
  return deviations.map((deviation) => [logAbove(-deviation / sd), logAbove(deviation / sd)]);
}

function weibullShares(sorted: readonly number[]): LogShares[] | NotEvaluated {
  const fit = estimateWeibull({ exact: [...sorted] });
  if (isNotEvaluated(fit)) return fit;
  return sorted.map((value) => {
    const reduced = fit.shape * Math.log(value / fit.scale);
    const hazard = Math.exp(reduced);
    // So far down 1 - exp(-h) is h, and may be below the smallest number there is.
    return [reduced < -30 ? reduced : Math.log(-Math.expm1(-hazard)), -hazard];
  });
}

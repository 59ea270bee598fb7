import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { max } from 'simple-statistics';
import { centred } from '../description/centred.js';
import { requireCount, requireFraction, requireValues } from '../requirements.js';

/** Which end of the values is screened. */
export type ScreenedSide = 'lower' | 'upper' | 'both';

export interface OutlierScreen {
  method: 'maximum normed residual';
  n: number;
  alpha: number;
  side: ScreenedSide;
  /** Farthest deviation from the mean on the screened side, in sample standard deviations. */
  statistic: number;
  critical: number;
  /** Which value lies farthest, from 0. */
  index: number;
  /** True where the statistic exceeds critical. */
  outlier: boolean;
}

/**
 * The largest normed residual that a normal sample of n values exceeds with a chance of at most alpha:
 *
 *     critical = (n - 1) / sqrt n * sqrt(t^2 / (n - 2 + t^2))
 *
 * with t the quantile of Student's t at alpha / n (one side) or alpha / (2 n) (both) above it, n - 2 degrees of freedom.
 *
 * Source: Grubbs (1969), Technometrics 11, 1-21; MIL-HDBK-17-1F (2002), volume 1, section 8.3.3.
 */
export function criticalNormedResidual(n: number, alpha: number, side: ScreenedSide): number | NotEvaluated {
  requireCount('criticalNormedResidual', { n });
  requireFraction('criticalNormedResidual', { alpha });
  if (n < 3) return notEvaluated(`of ${n} values none lies farther out than any other`, 'at least 3 values are given');
  const t = tQuantile(alpha / (side === 'both' ? 2 * n : n), n - 2);
  return (n - 1) / Math.sqrt(n * (1 + (n - 2) / (t * t)));
}

/**
 * Does one value lie farther from the others than normal scatter explains? The maximum normed residual,
 *
 *     statistic = max |x_i - m| / s     (both sides; (m - x_i) / s or (x_i - m) / s for one)
 *
 * against its critical value (see `criticalNormedResidual`). A value called out is looked into, never dropped for this
 * alone.
 *
 * Hypothesis: all values are one normal sample. Assumes values independent. Smallest n: 3.
 *
 * Source: Grubbs (1969), Technometrics 11, 1-21; MIL-HDBK-17-1F (2002), volume 1, section 8.3.3.
 */
export function outlierScreen(
  values: readonly number[],
  alpha: number,
  side: ScreenedSide = 'both',
): OutlierScreen | NotEvaluated {
  requireValues('outlierScreen', 'values', values);
  const critical = criticalNormedResidual(values.length, alpha, side);
  if (typeof critical !== 'number') return critical;
  const { n, deviations, squares } = centred(values);
  if (squares === 0) return notEvaluated('all values are the same number', 'values are read finely enough to differ');
  const outward = deviations.map((deviation) =>
    side === 'both' ? Math.abs(deviation) : side === 'upper' ? deviation : -deviation,
  );
  const farthest = max(outward);
  const statistic = farthest / Math.sqrt(squares / (n - 1));
  return {
    method: 'maximum normed residual',
    n,
    alpha,
    side,
    statistic,
    critical,
    index: outward.indexOf(farthest),
    outlier: statistic > critical,
  };
}

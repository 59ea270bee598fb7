import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { responseCurve } from '@breakbook/statistics';

/** One specimen, struck once, in the order struck. */
export interface Strike {
  level: number;
  broke: boolean;
}

/**
 * The lower profile limit of the level at which a share breaks, and the curve it comes from, not calibrated: for plans that
 * simulate thousands of series. A lot is judged by `responseBound`, whose limit lies somewhat lower.
 */
export function levelLimit(
  strikes: readonly Strike[],
  share: number,
  confidence: number,
): { estimate: number; lower: number; mean: number; sd: number } | NotEvaluated {
  const rows = new Map<number, { level: number; tested: number; broke: number }>();
  for (const { level, broke } of strikes) {
    const row = rows.get(level) ?? { level, tested: 0, broke: 0 };
    row.tested++;
    if (broke) row.broke++;
    rows.set(level, row);
  }
  // A one-sided limit is the lower end of a two-sided interval of twice the risk.
  const curve = responseCurve([...rows.values()], {
    link: 'probit',
    confidence: 2 * confidence - 1,
    quantiles: [share],
  });
  if (isNotEvaluated(curve)) return curve;
  if (curve.direction === 'falling')
    return notEvaluated('more specimens broke at lower levels than at higher ones', 'the levels are recorded rightly');
  const [quantile] = curve.quantiles;
  const { median, slope } = curve;
  if (!quantile || isNotEvaluated(quantile.value) || isNotEvaluated(median) || isNotEvaluated(slope))
    return notEvaluated(
      'the levels part what broke from what held, so that a curve of any steepness fits',
      'more specimens are struck, so that some hold where or above where another broke',
    );
  const [lower] = quantile.limits.profile;
  if (isNotEvaluated(lower)) return lower;
  return { estimate: quantile.value, lower, mean: median, sd: 1 / slope };
}

import { requirePositive } from '../requirements.js';

/** Shapes a half width may have; `u-shaped` is the arc sine distribution of a cycling influence. */
export type HalfWidthShape = 'rectangular' | 'triangular' | 'u-shaped';

const DIVISOR_SQUARED: Record<HalfWidthShape, number> = { rectangular: 3, triangular: 6, 'u-shaped': 2 };

/**
 * The standard uncertainty of a quantity that lies within a half width a of its estimate:
 *
 *     u = a / sqrt 3 (rectangular),   a / sqrt 6 (triangular),   a / sqrt 2 (u-shaped)
 *
 * in the unit of the half width.
 *
 * Source: JCGM 100:2008 (GUM), 4.3.7 and 4.3.9; the u-shaped case from the variance of the arc sine
 * distribution, as JCGM 101:2008, 6.4.6.
 */
export function standardUncertainty(halfWidth: number, shape: HalfWidthShape): number {
  requirePositive('standardUncertainty', { halfWidth });
  return halfWidth / Math.sqrt(DIVISOR_SQUARED[shape]);
}

/**
 * The standard uncertainty behind an expanded one, as a calibration certificate states it: u = U / k.
 *
 * Source: JCGM 100:2008 (GUM), 4.3.3.
 */
export function fromExpanded(expanded: number, k: number): number {
  requirePositive('fromExpanded', { expanded, k });
  return expanded / k;
}

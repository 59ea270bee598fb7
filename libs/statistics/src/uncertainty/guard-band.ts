import { normalQuantile } from '../distributions/normal.js';
import { requireFinite, requireFraction, requirePositive } from '../requirements.js';

export interface GuardBand {
  method: 'guard band';
  /** In the unit of the limit; below 0 where less than even odds are asked for. */
  guardBand: number;
  /** A value at it conforms with just the probability asked for. */
  acceptanceLimit: number;
}

/**
 * How far inside a limit must a measured value lie, for the quantity to conform with this probability?
 *
 *     guard band = z_p u,     acceptance limit = lower limit + guard band, or upper limit - guard band
 *
 * Assumes that what the measurement says is normal, and a single limit: the other side of a tolerance lies many u away.
 *
 * Source: JCGM 106:2012, clause 8; ILAC-G8:09/2019.
 */
export function guardBand(
  limit: number,
  side: 'lower' | 'upper',
  standardUncertainty: number,
  probability: number,
): GuardBand {
  requireFinite('guardBand', { limit });
  requirePositive('guardBand', { standardUncertainty });
  requireFraction('guardBand', { probability });
  const width = normalQuantile(probability) * standardUncertainty;
  return {
    method: 'guard band',
    guardBand: width,
    acceptanceLimit: side === 'lower' ? limit + width : limit - width,
  };
}

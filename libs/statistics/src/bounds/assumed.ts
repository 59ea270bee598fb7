import type { StrengthModel } from '../fits/strength-model.js';

/** What a bound assumes of strength when it takes one of these distributions. */
export const ASSUMED_OF: Record<StrengthModel['distribution'], string> = {
  weibull: 'strength follows a two-parameter Weibull distribution',
  normal: 'strength is normal',
  lognormal: 'the logarithm of strength is normal',
};

/** What every bound of a sample with survivors assumes of them. */
export const ENDED_FAIRLY = 'what ended a test early had nothing to do with how much more the specimen would have held';

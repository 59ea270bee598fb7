import type { Sample } from '@breakbook/lab';
import type { Family } from './family.js';
import { logObservations, type Observations, plainObservations } from './observations.js';
import { smallestExtremeValue } from './smallest-extreme-value.js';
import { standardNormal } from './standard-normal.js';

/** A distribution of strength of location-scale form, on the scale of strength itself or of its logarithm. */
export interface StrengthModel {
  distribution: 'weibull' | 'normal' | 'lognormal';
  family: Family;
  logarithmic: boolean;
}

/** Location ln scale, scale 1 / shape. */
export const weibullModel: StrengthModel = {
  distribution: 'weibull',
  family: smallestExtremeValue,
  logarithmic: true,
};

/** Location mean, scale standard deviation. */
export const normalModel: StrengthModel = { distribution: 'normal', family: standardNormal, logarithmic: false };

/** Location and scale are mean and standard deviation of ln strength. */
export const lognormalModel: StrengthModel = { distribution: 'lognormal', family: standardNormal, logarithmic: true };

export const strengthModels = { weibull: weibullModel, normal: normalModel, lognormal: lognormalModel };

/** A sample on the scale where its model is of location-scale form. */
export function observationsFor(caller: string, model: StrengthModel, sample: Sample): Observations {
  return model.logarithmic ? logObservations(caller, sample) : plainObservations(caller, sample);
}

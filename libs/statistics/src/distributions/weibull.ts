import { requirePositive } from '../requirements.js';

/** The two numbers of a Weibull distribution: scale in the unit of the strength, at which 63.2 % have failed. */
export interface WeibullParameters {
  shape: number;
  scale: number;
}

/** Share of a Weibull population with strength at most `value`: 1 - exp(-(value / scale)^shape). */
export function weibullCdf(value: number, { shape, scale }: WeibullParameters): number {
  requirePositive('weibullCdf', { shape, scale });
  return value <= 0 ? 0 : -Math.expm1(-((value / scale) ** shape));
}

/** Share of a Weibull population with strength above `value`: exp(-(value / scale)^shape). */
export function weibullSurvival(value: number, { shape, scale }: WeibullParameters): number {
  requirePositive('weibullSurvival', { shape, scale });
  return value <= 0 ? 1 : Math.exp(-((value / scale) ** shape));
}

/** The strength below which a share `fraction` of a Weibull population lies: scale (-ln(1 - fraction))^(1/shape). */
export function weibullQuantile(fraction: number, { shape, scale }: WeibullParameters): number {
  requirePositive('weibullQuantile', { shape, scale });
  if (!(fraction >= 0 && fraction <= 1))
    throw new RangeError(`weibullQuantile: fraction must lie between 0 and 1; got ${fraction}.`);
  return scale * (-Math.log1p(-fraction)) ** (1 / shape);
}

import { type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { chiSquareQuantile } from '../distributions/gamma-quantile.js';
import { weibullQuantile } from '../distributions/weibull.js';
import { logObservations } from '../fits/observations.js';
import { requireFraction, requirePositive } from '../requirements.js';

export interface WeibullKnownShapeBound {
  method: 'Weibull bound of known shape';
  n: number;
  failures: number;
  shape: number;
  /** One-sided. */
  confidence: number;
  /** Maximum likelihood, or why there is none, in the unit of the sample. */
  scale: number | NotEvaluated;
  /** With `confidence`, the scale is at least this. */
  scaleLower: number;
  quantiles: {
    /** The share that fails below. */
    fraction: number;
    /** With `confidence`, the strength that a share 1 - `fraction` exceeds is at least this. */
    lower: number;
  }[];
  assumptions: string[];
}

/**
 * How strong is a Weibull population at least, when its shape is known beforehand from many earlier tests? It serves
 * tests with few failures, or none:
 *
 *     scale        = (sum of x^b / r)^(1 / b)
 *     scale lower  = (2 sum of x^b / chi-square(C; 2 r + 2))^(1 / b)
 *     B_f lower    = scale lower (-ln(1 - f))^(1 / b)
 *
 * with b the shape, r the failures, C the confidence and the sum over all specimens at the strength they broke at or
 * held. Exact where none broke; conservative for a complete sample and a test ended at a break, where 2 r degrees would be
 * exact. A specimen known between two values enters with the lower, one known as at most some value with 0: both can
 * only lower the bound.
 *
 * The shape is not learned from this sample, and a wrong one moves the bound without any sign of it.
 *
 * Source: Nelson (1985), J. Qual. Technol. 17, 140-146.
 */
export function weibullKnownShapeBound(
  sample: Sample,
  {
    shape,
    confidence,
    quantiles = [],
  }: { shape: number; confidence: number; quantiles?: readonly number[] | undefined },
): WeibullKnownShapeBound | NotEvaluated {
  requirePositive('weibullKnownShapeBound', { shape });
  requireFraction('weibullKnownShapeBound', { confidence });
  for (const fraction of quantiles) requireFraction('weibullKnownShapeBound', { fraction });
  const { exact, atLeast, lower, atMost, n, failures } = logObservations('weibullKnownShapeBound', sample);
  if (n === 0) return notEvaluated('the sample is empty', 'specimens are tested');
  const logarithms = [...exact, ...atLeast, ...lower];
  if (logarithms.length === 0)
    return notEvaluated(
      'no specimen is known to have held anything, so nothing lies below its strength',
      'strengths are known exactly, as at least or as between',
    );

  // In units of the largest strength, whose powers could overflow.
  let largest = Number.NEGATIVE_INFINITY;
  for (const logarithm of logarithms) largest = Math.max(largest, logarithm);
  let sum = 0;
  for (const logarithm of logarithms) sum += Math.exp(shape * (logarithm - largest));
  const scaleFrom = (divisor: number) => Math.exp(largest + Math.log(sum / divisor) / shape);
  const scaleLower = scaleFrom(chiSquareQuantile(confidence, 2 * failures + 2) / 2);
  const found = quantiles.map((fraction) => ({
    fraction,
    lower: weibullQuantile(fraction, { shape, scale: scaleLower }),
  }));
  if (![scaleLower, ...found.map(({ lower }) => lower)].every((bound) => bound > 0 && Number.isFinite(bound)))
    return notEvaluated('a bound lies beyond every strength a number can hold', 'the shape is larger');
  return {
    method: 'Weibull bound of known shape',
    n,
    failures,
    shape,
    confidence,
    scale:
      failures === 0
        ? notEvaluated('no specimen broke, so nothing limits the scale from above', 'at least one specimen breaks')
        : atMost.length > 0 || lower.length > 0
          ? notEvaluated(
              'some strengths are known only as at most or between, and the sum holds their least values',
              'every strength is known exactly or as at least, or the shape is fitted too',
            )
          : scaleFrom(failures),
    scaleLower,
    quantiles: found,
    assumptions: [
      'strength follows a two-parameter Weibull distribution',
      `its shape is ${shape}, known from earlier tests and not from this sample`,
      'specimens are independent and drawn at random',
      'what ended a test early had nothing to do with how much more the specimen would have held',
    ],
  };
}

import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { fitWeibull, type WeibullFit } from '../fits/weibull-fit.js';
import { requireFraction } from '../requirements.js';
import { type LowerToleranceBound, lowerToleranceBound } from './lower-tolerance-bound.js';
import { modesTogether, type SamplesByMode } from './samples-by-mode.js';
import { type SeriesBound, seriesBounds } from './series-bound.js';

export interface CompetingModes {
  method: 'competing modes';
  confidence: number;
  n: number;
  /** How many specimens each mode broke. */
  failuresByMode: Record<string, number>;
  /** For each mode, its own fit: specimens broken by others held at least so much. */
  perMode: Record<string, WeibullFit | NotEvaluated>;
  /** One Weibull fit in which every mode counts as a break. */
  allModes: WeibullFit | NotEvaluated;
  bounds: {
    /** The share that fails below, by whatever mode. */
    fraction: number;
    /** By the all-modes fit: the only one on which acceptance may rest. */
    allModes: LowerToleranceBound | NotEvaluated;
    /** By the modes together, for comparison. */
    series: SeriesBound | NotEvaluated;
  }[];
  assumptions: string[];
  seed: number;
  replicates: number;
}

/**
 * How strong is each mode of failure by itself, and how strong is a specimen that fails by whichever comes first?
 *
 *     per mode    a Weibull fit in which specimens broken by other modes held at least so much
 *     all modes   a Weibull fit in which every mode counts as a break
 *     series      S(x) = product over modes of S_m(x), the share that survives them all
 *
 * Bounds are those of the all-modes fit (see `lowerToleranceBound`) and, beside them, a bootstrap of the series as a
 * whole. Bounds of single modes are never multiplied: their product has no confidence that can be stated.
 *
 * Assumes that modes act independently, which no sample can show. The all-modes bound does not need that, but needs
 * all modes together to be near to one Weibull distribution; it lies far off the series where they are not.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., chapter 9; Meeker and Escobar (1998),
 * Statistical Methods for Reliability Data, section 15.4.
 */
export function competingModes(
  samples: SamplesByMode,
  {
    confidence,
    quantiles,
    seed = 1,
    replicates = 2000,
  }: { confidence: number; quantiles: readonly number[]; seed?: number | undefined; replicates?: number | undefined },
): CompetingModes | NotEvaluated {
  requireFraction('competingModes', { confidence });
  for (const fraction of quantiles) requireFraction('competingModes', { fraction });
  const modes = Object.keys(samples);
  if (modes.length === 0) return notEvaluated('no mode is given', 'the sample of at least 1 mode is given');
  const together = modesTogether(samples);
  if ('message' in together) throw new RangeError(`competingModes: mode "${together.mode}": ${together.message}.`);

  const { byMode, allModes } = together;
  const options = { confidence, quantiles };
  const perMode = Object.fromEntries(modes.map((mode) => [mode, fitWeibull(byMode[mode] ?? {}, options)]));
  const failuresByMode = Object.fromEntries(modes.map((mode) => [mode, failuresIn(samples[mode] ?? {})]));
  const series = seriesBounds({ perMode, failuresByMode, allModes, confidence, quantiles, seed, replicates });
  return {
    method: 'competing modes',
    confidence,
    n: failuresIn(allModes) + (allModes.atLeast ?? []).length,
    failuresByMode,
    perMode,
    allModes: fitWeibull(allModes, options),
    bounds: quantiles.map((fraction, index) => ({
      fraction,
      allModes: lowerToleranceBound({
        sample: allModes,
        coverage: 1 - fraction,
        confidence,
        distribution: 'weibull',
        seed,
      }),
      series: isNotEvaluated(series) ? series : (series[index] as SeriesBound),
    })),
    assumptions: [
      'specimens are independent and drawn at random',
      'per mode and series: the modes act independently, which no sample can show',
      'per mode: strength against each mode follows a two-parameter Weibull distribution; all modes: so does the least of them',
      'the series bound is a bootstrap, for comparison only; acceptance rests on the all-modes bound',
    ],
    seed,
    replicates,
  };
}

function failuresIn({ exact = [], atMost = [], between = [] }: SamplesByMode[string]): number {
  return exact.length + atMost.length + between.length;
}

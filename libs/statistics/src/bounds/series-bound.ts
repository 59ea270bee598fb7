import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import type { WeibullParameters } from '../distributions/weibull.js';
import { maximumOfObservations } from '../fits/location-scale-fit.js';
import { logObservations } from '../fits/observations.js';
import { weibullModel } from '../fits/strength-model.js';
import type { WeibullFit } from '../fits/weibull-fit.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { ceilingsOf } from '../random/ceilings.js';
import { type Generator, seededGenerator } from '../random/generator.js';
import { lowerPercentile } from './percentile.js';

/** What specimens hold that fail by whichever mode comes first, by the modes' own fits. In the unit of the sample. */
export interface SeriesBound {
  estimate: number;
  /** Bootstrap percentile, for comparison only. */
  lower: number;
  /** Standard error of `lower`. */
  simulationError: number;
  /** Share of the simulated tests in which some mode had no fit and which are left out. */
  shareNotEvaluated: number;
}

export interface SeriesQuestion {
  perMode: Record<string, WeibullFit | NotEvaluated>;
  failuresByMode: Record<string, number>;
  allModes: Sample;
  confidence: number;
  quantiles: readonly number[];
  seed: number;
  replicates: number;
}

/**
 * The strength that a share of the specimens exceeds which fail by whichever mode comes first, and the point below which
 * a share 1 - confidence of such strengths lies that are fitted to simulated tests like this one: a strength is drawn for
 * each mode from its fit, the least breaks the specimen, and specimens are ended early as `ceilingsOf` says.
 *
 * Modes that broke nothing are left out of the series.
 */
export function seriesBounds(question: SeriesQuestion): SeriesBound[] | NotEvaluated {
  const { perMode, failuresByMode, allModes, confidence, quantiles, seed, replicates } = question;
  if ((allModes.atMost ?? []).length + (allModes.between ?? []).length > 0)
    return notEvaluated(
      'some strengths are known within intervals only, and the simulation draws exact ones',
      'every strength is known exactly or as at least',
    );
  const modes: WeibullParameters[] = [];
  for (const [mode, fit] of Object.entries(perMode)) {
    if (failuresByMode[mode] === 0) continue;
    if (isNotEvaluated(fit))
      return notEvaluated(`mode "${mode}" has no fit: ${fit.notEvaluated.because}`, fit.notEvaluated.possibleIf);
    modes.push(fit);
  }
  if (modes.length === 0) return notEvaluated('no specimen broke', 'at least 2 specimens break by one mode');

  const { exact, atLeast } = logObservations('seriesBounds', allModes);
  const ceilings = ceilingsOf(exact, atLeast);
  const chance = seededGenerator(seed);
  const drawn = quantiles.map(() => new Float64Array(replicates));
  let [found, tried] = [0, 0];
  while (found < replicates) {
    if (tried++ >= 10 * replicates)
      return notEvaluated(
        'in tests like this one some mode seldom has a fit, so that little is learned from them',
        'more specimens are broken by each mode',
      );
    const fits = refitted(modes, [...ceilings.draw(chance)], chance);
    if (fits === undefined) continue;
    quantiles.forEach((fraction, index) => {
      (drawn[index] as Float64Array)[found] = logSeriesQuantile(fits, fraction);
    });
    found++;
  }
  return quantiles.map((fraction, index) => {
    const { value, error } = lowerPercentile(drawn[index] as Float64Array, 1 - confidence);
    return {
      estimate: Math.exp(logSeriesQuantile(modes, fraction)),
      lower: Math.exp(value),
      simulationError: Math.exp(value) * error,
      shareNotEvaluated: 1 - replicates / tried,
    };
  });
}

/** The modes' fits to one simulated test, if each has one. */
function refitted(
  modes: readonly WeibullParameters[],
  ceilings: readonly number[],
  chance: Generator,
): WeibullParameters[] | undefined {
  const broke = modes.map((): number[] => []);
  const held = modes.map((): number[] => []);
  for (const ceiling of ceilings) {
    let [least, by] = [ceiling, -1];
    modes.forEach((mode, index) => {
      const y = Math.log(chance.weibull(mode));
      if (y < least) [least, by] = [y, index];
    });
    modes.forEach((_, index) => {
      (index === by ? broke : held)[index]?.push(least);
    });
  }
  const none = new Float64Array(0);
  const fits: WeibullParameters[] = [];
  for (let index = 0; index < modes.length; index++) {
    const exact = Float64Array.from(broke[index] as number[]);
    const atLeast = Float64Array.from(held[index] as number[]);
    const observations = { exact, atLeast, atMost: none, lower: none, upper: none };
    const fitted = maximumOfObservations(weibullModel, {
      ...observations,
      n: exact.length + atLeast.length,
      failures: exact.length,
    });
    if (isNotEvaluated(fitted)) return undefined;
    const { location, scale } = fitted.likelihood.locationAndScale(fitted.maximum.intercept, fitted.maximum.slope);
    fits.push({ shape: 1 / scale, scale: Math.exp(location) });
  }
  return fits;
}

/** The logarithm of the strength below which a share fails by whichever mode comes first. */
function logSeriesQuantile(modes: readonly WeibullParameters[], fraction: number): number {
  const hazard = Math.log(-Math.log1p(-fraction));
  const single = modes.map(({ shape, scale }) => Math.log(scale) + hazard / shape);
  // The least single-mode strength is above the answer, and near it.
  return rootOfIncreasing(
    (y) => {
      let [sum, slope] = [0, 0];
      for (const { shape, scale } of modes) {
        const term = Math.exp(shape * (y - Math.log(scale)) - hazard);
        sum += term;
        slope += shape * term;
      }
      return { value: Math.log(sum), slope: slope / sum };
    },
    Math.min(...single),
    0.01,
  );
}

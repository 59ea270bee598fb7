import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { sum } from 'simple-statistics';
import { oneWayAnova } from '../description/one-way-anova.js';
import { summary } from '../description/summary.js';
import { requireFraction } from '../requirements.js';
import { normalToleranceFactor } from './normal-tolerance-factor.js';

export interface AnovaBound {
  method: 'analysis-of-variance bound';
  n: number;
  batches: number;
  coverage: number;
  confidence: number;
  /** In the unit of the values. */
  bound: number;
  /** Standard deviations of the population, within and between batches taken together, that the bound lies below the mean. */
  factor: number;
  mean: number;
  withinSd: number;
  /** 0 where batches differ less than the scatter within them explains. */
  betweenSd: number;
  /** The standard deviation that `factor` multiplies. */
  populationSd: number;
}

/**
 * What strength does at least this share of a population exceed that comes in batches, when the batches differ?
 *
 *     bound = mean - T S,    S^2 = MSB / n' + MSE (n' - 1) / n',    n' = (n - sum n_i^2 / n) / (k - 1)
 *     T = (k0 - k1 / sqrt n' + (k1 - k0) w) / (1 - 1 / sqrt n'),    w = sqrt(u / (u + n' - 1)),    u = MSB / MSE, at least 1
 *
 * with MSB and MSE the mean squares between and within k batches, k0 and k1 the one-sided normal factors of n and of k
 * values. With nothing between batches but chance T is k0; with all scatter between them it is k1, as if each batch were
 * one value.
 *
 * Approximate: slightly conservative for batches of one size (docs/coverage.md has it simulated). Assumes
 * normal strength in each batch with one scatter, batch means normal too, and batches drawn at random. Smallest: 2 batches,
 * one of them of 2; with fewer than five the factor is large, because so little is known of how batches differ.
 *
 * Source: Vangel (1992), Technometrics 34, 176-185; MIL-HDBK-17-1F, volume 1, section 8.3.5.2. Formula from memory, checked
 * by its two limits.
 */
export function anovaBound(
  groups: readonly (readonly number[])[],
  { coverage, confidence }: { coverage: number; confidence: number },
): AnovaBound | NotEvaluated {
  requireFraction('anovaBound', { coverage, confidence });
  const anova = oneWayAnova(groups);
  if (isNotEvaluated(anova)) return anova;
  const described = summary(groups.flat());
  if (isNotEvaluated(described)) return described;
  const { n, groups: batches, between, within } = anova;

  const size = (n - sum(groups.map((group) => group.length ** 2)) / n) / (batches - 1);
  if (!(size > 1))
    return notEvaluated(
      'the batches hold hardly more than one value each, so scatter within and between cannot be told apart',
      'batches hold at least 2 values',
    );
  const k0 = normalToleranceFactor({ n, coverage, confidence }).k;
  const k1 = normalToleranceFactor({ n: batches, coverage, confidence }).k;
  const ratio = Math.max(1, between.ms / within.ms);
  const w = Math.sqrt(ratio / (ratio + size - 1));
  const root = Math.sqrt(size);
  const factor = (k0 - k1 / root + (k1 - k0) * w) / (1 - 1 / root);
  const populationSd = Math.sqrt(between.ms / size + (within.ms * (size - 1)) / size);
  return {
    method: 'analysis-of-variance bound',
    n,
    batches,
    coverage,
    confidence,
    bound: described.mean - factor * populationSd,
    factor,
    mean: described.mean,
    withinSd: anova.residualSd,
    betweenSd: Math.sqrt(Math.max(0, between.ms - within.ms) / size),
    populationSd,
  };
}

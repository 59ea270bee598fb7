import type { Distribution } from '@breakbook/lab';
import { seededGenerator } from '../../random/generator.js';
import { requireCount, requireFraction } from '../../requirements.js';
import { type LookLevels, normalLooks, weibullLooks } from './look-levels.js';
import { chanceOrderStatisticsHold } from './order-statistic-stages.js';

/** Simulated schedules if none are asked for: at 0.95 a standard error of 0.0022. */
const USUAL_REPLICATES = 10_000;

export interface StageConfidence {
  method: 'stage confidence';
  /** Specimens in all at each look, rising. */
  stages: readonly number[];
  coverage: number;
  confidence: number;
  distribution: Distribution;
  /** The confidence of the bound at each look, with which the whole schedule keeps `confidence`. */
  perStageConfidence: number;
  /** The confidence the schedule then keeps. */
  overall: number;
  /** What it would keep with `confidence` at each look. */
  unadjusted: number;
  /** Standard error of `overall` and of `unadjusted`; 0 where they are exact. */
  simulationError: number;
  seed?: number;
  replicates?: number;
}

export interface ScheduleQuestion {
  stages: readonly number[];
  coverage: number;
  confidence: number;
  distribution: Distribution;
  seed?: number | undefined;
  replicates?: number | undefined;
}

/**
 * With what confidence must the bound be taken at each of several declared looks, so that the whole schedule keeps its
 * stated confidence? A lot that just misses its limit is accepted as soon as one look's bound clears it; so the chance
 * that any look's bound lies above the true quantile must be no more than 1 - confidence.
 *
 * Each look has a level at which its bound would lie on the truth (see `LookLevels`), and a schedule errs where the
 * largest of them exceeds the per-stage confidence. That is therefore a quantile of the largest level, over simulated
 * schedules, taken three standard errors to the safe side; a second simulation gives what it keeps. For order statistics all
 * of it is worked out exactly.
 *
 * Normal and lognormal by noncentral t, Weibull by the conditional technique, complete samples; each look holds the
 * specimens of the earlier ones. Does not depend on the parameters of the population.
 *
 * Source: group sequential tests with one level for all looks, Pocock (1977), Biometrika 64, 191-199; applied here to
 * tolerance bounds.
 */
export function stageConfidence(question: ScheduleQuestion): StageConfidence {
  const { stages, coverage, confidence, distribution, seed = 1, replicates = USUAL_REPLICATES } = question;
  requireFraction('stageConfidence', { coverage, confidence });
  requireCount('stageConfidence', { replicates }, 1000);
  if (stages.length === 0) throw new RangeError('stageConfidence: a schedule has at least one look.');
  stages.forEach((n, look) => {
    requireCount('stageConfidence', { [`stages[${look}]`]: n }, distribution === 'distribution-free' ? 1 : 2);
    if (look > 0 && n <= (stages[look - 1] as number))
      throw new RangeError(
        `stageConfidence: stages[${look}] is ${n}; each look has more specimens than the one before.`,
      );
  });
  const asked = { method: 'stage confidence', stages, coverage, confidence, distribution } as const;
  if (distribution === 'distribution-free') return { ...asked, ...exactly(stages, coverage, confidence) };

  const looks = (distribution === 'weibull' ? weibullLooks : normalLooks)(stages, coverage);
  const first = largestLevels(looks, seed, replicates);
  // One standard error would leave one schedule in six above the risk that it claims.
  const spare = 3 * Math.sqrt(replicates * confidence * (1 - confidence));
  // One look is exact, and no simulation makes it surer.
  const place = Math.min(replicates - 1, Math.ceil(replicates * confidence + spare));
  const perStageConfidence = stages.length === 1 ? confidence : Math.max(confidence, first[place] as number);
  const second = largestLevels(looks, seed + 1, replicates);
  const overall = stages.length === 1 ? confidence : shareUpTo(second, perStageConfidence);
  return {
    ...asked,
    perStageConfidence,
    overall,
    unadjusted: stages.length === 1 ? confidence : shareUpTo(second, confidence),
    simulationError: stages.length === 1 ? 0 : Math.sqrt((overall * (1 - overall)) / replicates),
    seed,
    replicates,
  };
}

/** The largest level of each simulated schedule, ascending. */
function largestLevels(looks: LookLevels, seed: number, replicates: number): Float64Array {
  const chance = seededGenerator(seed);
  return Float64Array.from({ length: replicates }, () => Math.max(...looks(chance))).sort();
}

function shareUpTo(ascending: Float64Array, level: number): number {
  const above = ascending.findIndex((value) => value > level);
  return (above < 0 ? ascending.length : above) / ascending.length;
}

/** For order statistics: the smallest per-stage confidence that serves, by halving; the chance rises with it in steps. */
function exactly(stages: readonly number[], coverage: number, confidence: number) {
  const keeps = (level: number) => chanceOrderStatisticsHold(stages, coverage, level);
  const enough = confidence * (1 - 1e-12);
  let perStageConfidence = confidence;
  if (keeps(confidence) < enough) {
    // With the risk shared out over the looks it is always kept.
    let [tooLow, serves] = [confidence, 1 - (1 - confidence) / stages.length];
    while (serves - tooLow > 1e-12) {
      const middle = (tooLow + serves) / 2;
      if (keeps(middle) >= enough) serves = middle;
      else tooLow = middle;
    }
    perStageConfidence = serves;
  }
  return {
    perStageConfidence,
    overall: keeps(perStageConfidence),
    unadjusted: keeps(confidence),
    simulationError: 0,
  };
}

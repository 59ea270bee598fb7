import { type Distribution, isNotEvaluated } from '@breakbook/lab';
import { normalToleranceFactor } from '../../bounds/normal-tolerance-factor.js';
import { conditionalPivot } from '../../bounds/weibull-conditional.js';
import { normalQuantile } from '../../distributions/normal.js';
import { estimateWeibull } from '../../fits/weibull-fit.js';
import { type Generator, seededGenerator } from '../../random/generator.js';
import { requireCount, requireFraction } from '../../requirements.js';
import { chanceOrderStatisticsHold } from './order-statistic-stages.js';

export interface StagedBound {
  /** Specimens in all at each look, rising. */
  stages: readonly number[];
  coverage: number;
  /** Confidence of the bound at each look, as `stageConfidence` gives it. */
  perStageConfidence: number;
  distribution: Distribution;
  seed?: number | undefined;
  replicates?: number | undefined;
}

export interface StagedBoundChance {
  /** For each share: that some look's bound clears the limit. */
  acceptance: number[];
  /** Specimens broken on average: a look that clears the limit is the last. */
  expected: number[];
  /** Standard error of each chance; 0 where it is exact. */
  simulationError: number[];
  seed?: number;
  replicates?: number;
}

/**
 * How likely does a schedule of looks at a lower tolerance bound accept a population of which this share lies below the
 * limit, and how many specimens does it break on average? The bound of each look is taken over simulated schedules of a
 * standard population, each look holding the specimens of the earlier ones; a look accepts where
 *
 *     normal, lognormal   mean - k s >= normal quantile of the share,       k at the look's confidence
 *     weibull             ln scale - z / shape >= ln(-ln(1 - share)),        z the conditional point of the bound
 *
 * and order statistics are worked out exactly. One simulation serves every share, since the population enters only by
 * where its quantiles lie. Assumes complete samples drawn at random.
 *
 * Source: bounds, Owen (1963) and Lawless (1978), Technometrics 20, 355-368; one level for all looks, Pocock (1977),
 * Biometrika 64, 191-199; average sample number, Wald (1947), Sequential Analysis.
 */
export function stagedBoundChance(given: StagedBound, shares: readonly number[]): StagedBoundChance {
  const { stages, coverage, perStageConfidence, distribution, seed = 1, replicates = 1000 } = given;
  requireFraction('stagedBoundChance', { coverage, perStageConfidence });
  requireCount('stagedBoundChance', { replicates }, 2);
  for (const share of shares) requireFraction('stagedBoundChance', { share });
  if (distribution === 'distribution-free') return exactly(given, shares);

  const boundsOf = (distribution === 'weibull' ? weibullBounds : normalBounds)(given);
  const place =
    distribution === 'weibull'
      ? (share: number) => Math.log(-Math.log1p(-share))
      : (share: number) => normalQuantile(share);
  const limits = shares.map(place);
  const accepted = shares.map(() => 0);
  const broken = shares.map(() => 0);
  const chance = seededGenerator(seed);
  const all = stages[stages.length - 1] as number;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const bounds = boundsOf(chance);
    limits.forEach((limit, index) => {
      const look = bounds.findIndex((bound) => bound >= limit);
      if (look >= 0) accepted[index] = (accepted[index] as number) + 1;
      broken[index] = (broken[index] as number) + (look < 0 ? all : (stages[look] as number));
    });
  }
  const acceptance = accepted.map((count) => count / replicates);
  return {
    acceptance,
    expected: broken.map((sum) => sum / replicates),
    simulationError: acceptance.map((one) => Math.sqrt((one * (1 - one)) / replicates)),
    seed,
    replicates,
  };
}

type Bounds = (chance: Generator) => number[];

/** Of a standard normal population: the bound of each look. */
function normalBounds({ stages, coverage, perStageConfidence }: StagedBound): Bounds {
  const factors = stages.map((n) => normalToleranceFactor({ n, coverage, confidence: perStageConfidence }).k);
  return ({ normal }) => {
    let [n, mean, squares] = [0, 0, 0];
    return stages.map((stage, look) => {
      while (n < stage) {
        const value = normal();
        n++;
        const off = value - mean;
        mean += off / n;
        squares += off * (value - mean);
      }
      return mean - (factors[look] as number) * Math.sqrt(squares / (n - 1));
    });
  };
}

/** Of a Weibull population of shape 1 and scale 1: the logarithm of the bound of each look. */
function weibullBounds({ stages, coverage, perStageConfidence }: StagedBound): Bounds {
  return ({ weibull }) => {
    const all = Array.from({ length: stages[stages.length - 1] as number }, () => weibull({ shape: 1, scale: 1 }));
    return stages.map((n) => {
      const exact = all.slice(0, n);
      const fit = estimateWeibull({ exact });
      // Numbers of 53 bits drawn at random are not all alike.
      if (isNotEvaluated(fit)) throw new Error(`a simulated sample has no fit: ${fit.notEvaluated.because}`);
      const broke = exact.map((strength) => fit.shape * Math.log(strength / fit.scale));
      return Math.log(fit.scale) - conditionalPivot({ broke, held: [] }, coverage, perStageConfidence) / fit.shape;
    });
  };
}

function exactly({ stages, coverage, perStageConfidence }: StagedBound, shares: readonly number[]): StagedBoundChance {
  const open = (looks: number, share: number) =>
    looks === 0 ? 1 : chanceOrderStatisticsHold(stages.slice(0, looks), coverage, perStageConfidence, share);
  return {
    acceptance: shares.map((share) => 1 - open(stages.length, share)),
    expected: shares.map((share) =>
      stages.reduce((sum, n, look) => sum + (n - (stages[look - 1] ?? 0)) * open(look, share), 0),
    ),
    simulationError: shares.map(() => 0),
  };
}

import { isNotEvaluated } from '@breakbook/lab';
import { type AncillarySample, conditionalPivot, pivotGiven } from '../bounds/weibull-conditional.js';
import { estimateWeibull } from '../fits/weibull-fit.js';
import { type Generator, seededGenerator } from '../random/generator.js';
import { requireCount, requireFraction } from '../requirements.js';

/** The claim of a tolerance bound: at least this share above it, with this confidence. */
export interface BoundClaim {
  coverage: number;
  confidence: number;
}

/** What is simulated: from which seed, how many samples. */
export interface Simulation {
  seed?: number | undefined;
  replicates?: number | undefined;
}

export interface SimulatedChances {
  /** One for each share asked for, a fraction. */
  chances: number[];
  /** Standard errors of these. */
  simulationError: number[];
  seed: number;
  replicates: number;
}

/**
 * How likely is it that the Weibull lower bound of n broken specimens lies above a limit that a share of the population
 * lies below? For each of several shares:
 *
 *     chance = average over simulated samples a of P(Z_share >= z | a),     z the point of the bound, given a
 *
 * with Z the pivotal quantity of `conditionalPivot`. The chance depends on the share alone, not on shape or scale. Each
 * replicate gives the whole chance for samples that lie relative to each other as it does, so that few serve.
 *
 * Source: Lawless (1978), Technometrics 20, 355-368; the average over conditional chances as in Monte Carlo by conditioning.
 */
export function weibullAcceptance(
  n: number,
  { coverage, confidence }: BoundClaim,
  shares: readonly number[],
  { seed = 1, replicates = 1000 }: Simulation = {},
): SimulatedChances {
  requireCount('weibullAcceptance', { n }, 2);
  requireCount('weibullAcceptance', { seed });
  requireCount('weibullAcceptance', { replicates }, 2);
  requireFraction('weibullAcceptance', { coverage, confidence });
  for (const share of shares) requireFraction('weibullAcceptance', { share });
  const generator = seededGenerator(seed);
  const sums = shares.map(() => ({ chance: 0, square: 0 }));
  for (let replicate = 0; replicate < replicates; replicate++) {
    const sample = drawn(n, generator);
    const point = conditionalPivot(sample, coverage, confidence);
    shares.forEach((share, index) => {
      const { above } = pivotGiven(sample, 1 - share)(point);
      const sum = sums[index] as { chance: number; square: number };
      sum.chance += above;
      sum.square += above * above;
    });
  }
  return {
    chances: sums.map(({ chance }) => chance / replicates),
    simulationError: sums.map(({ chance, square }) =>
      Math.sqrt(Math.max(0, square - (chance * chance) / replicates) / (replicates - 1) / replicates),
    ),
    seed,
    replicates,
  };
}

/** How n Weibull strengths drawn at random lie relative to each other: no shape or scale enters. */
function drawn(n: number, generator: Generator): AncillarySample {
  const exact = Array.from({ length: n }, () => generator.weibull({ shape: 1, scale: 1 }));
  const fit = estimateWeibull({ exact });
  // Numbers of 53 bits drawn at random are not all alike.
  if (isNotEvaluated(fit)) throw new Error(`a simulated sample has no fit: ${fit.notEvaluated.because}`);
  return { broke: exact.map((strength) => fit.shape * Math.log(strength / fit.scale)), held: [] };
}

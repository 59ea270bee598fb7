import { type Generator, seededGenerator } from '../random/generator.js';
import { requireCount } from '../requirements.js';
import { rangeMoments } from './range-moments.js';
import type { Seen } from './run-length-equations.js';

/** From how many lots target and sigma of a chart are estimated. */
export interface EstimatedLimits {
  lots: number;
  /** Of the simulated charts; 1 if left out. */
  seed?: number | undefined;
  /** How many charts are simulated; 1000 if left out. */
  replicates?: number | undefined;
}

/** Run lengths of simulated charts, for each shift; infinite where a chart is never to give a signal. */
export interface EstimatedCharts {
  seed: number;
  replicates: number;
  means: number[];
  /** Standard errors of the means. */
  errors: number[];
  /** What a tenth, half and nine tenths of the charts stay below. */
  quantiles: { tenth: number; median: number; nineTenths: number }[];
}

/**
 * What do the charts do whose target and sigma come from m lots without a shift: mean, and mean difference between
 * neighbours over d2? Each simulated set of m values gives a chart of its own; what it then sees of new values are normal
 * with mean (shift - target) / sigma and standard deviation 1 / sigma, and its run length follows exactly.
 *
 * Source: Quesenberry (1993), J. Qual. Technol. 25, 237-247.
 */
export function overEstimatedCharts(
  { lots, seed = 1, replicates = 1000 }: EstimatedLimits,
  shifts: readonly number[],
  lengthSeen: (seen: Seen) => number,
): EstimatedCharts {
  requireCount('runLength', { seed });
  requireCount('runLength', { replicates }, 2);
  const generator = seededGenerator(seed);
  const charts = Array.from({ length: replicates }, () => chartFrom(lots, generator));
  const lengths = shifts.map((shift) =>
    charts
      .map(({ target, sigma }) => lengthSeen({ mean: (shift - target) / sigma, sd: 1 / sigma }))
      .sort((a, b) => a - b),
  );
  const means = lengths.map((sorted) => sorted.reduce((sum, length) => sum + length, 0) / replicates);
  return {
    seed,
    replicates,
    means,
    errors: lengths.map((sorted, index) => {
      const mean = means[index] as number;
      const squares = sorted.reduce((sum, length) => sum + (length - mean) ** 2, 0);
      return Math.sqrt(squares / (replicates - 1) / replicates);
    }),
    quantiles: lengths.map((sorted) => {
      const at = (share: number) => sorted[Math.floor(share * (replicates - 1))] as number;
      return { tenth: at(0.1), median: at(0.5), nineTenths: at(0.9) };
    }),
  };
}

function chartFrom(lots: number, generator: Generator): { target: number; sigma: number } {
  let before = generator.normal();
  let [sum, differences] = [before, 0];
  for (let lot = 1; lot < lots; lot++) {
    const value = generator.normal();
    sum += value;
    differences += Math.abs(value - before);
    before = value;
  }
  return { target: sum / lots, sigma: differences / (lots - 1) / rangeMoments(2).mean };
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { seededGenerator } from '../random/generator.js';
import { requireCount, requireFinite, requireFraction } from '../requirements.js';
import { criticalOf, rawStatistic } from './k-sample-anderson-darling.js';

export interface BatchTestPower {
  method: 'batch test power';
  /** That the test tells the groups apart. */
  probability: number;
  /** Standard error of it. */
  simulationError: number;
  seed: number;
  replicates: number;
}

/**
 * How often would the k-sample Anderson-Darling test see that the first group lies off the others by `shift` standard
 * deviations? The share of seeded simulated sets of normal groups of these sizes that it tells apart. A test that sees
 * nothing in a handful of specimens has not shown that there is nothing.
 *
 * Smallest: 2 groups of 2.
 *
 * Source: simulation of the test of Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924.
 */
export function batchTestPower(
  sizes: readonly number[],
  shift: number,
  alpha: number,
  { seed = 1, replicates = 1000 }: { seed?: number; replicates?: number } = {},
): BatchTestPower | NotEvaluated {
  requireFinite('batchTestPower', { shift });
  requireFraction('batchTestPower', { alpha });
  requireCount('batchTestPower', { replicates }, 100);
  if (sizes.length < 2 || sizes.some((size) => size < 2))
    return notEvaluated('there are fewer than 2 groups of 2 values', 'every group has at least 2 values');
  const { normal } = seededGenerator(seed);
  // Whether it tells them apart is asked, and not by which p.
  const { critical } = criticalOf(sizes, alpha);
  let seen = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const groups = sizes.map((size, group) => Array.from({ length: size }, () => normal() + (group === 0 ? shift : 0)));
    if (rawStatistic(groups) / (sizes.length - 1) > critical) seen++;
  }
  const probability = seen / replicates;
  return {
    method: 'batch test power',
    probability,
    simulationError: Math.sqrt((probability * (1 - probability)) / replicates),
    seed,
    replicates,
  };
}

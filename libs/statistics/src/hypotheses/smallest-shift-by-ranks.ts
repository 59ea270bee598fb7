import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { median } from 'simple-statistics';
import { seededGenerator } from '../random/generator.js';
import { requireCount, requireFraction, requireValues } from '../requirements.js';
import { sumDistribution, workFor } from './rank-sum-distribution.js';

export interface SmallestShiftByRanks {
  method: 'smallest shift by ranks';
  power: number;
  /** In the unit of the values. */
  shift: number;
  replicates: number;
  seed: number;
}

const LARGEST_WORK = 1e8;

/**
 * Which true shift would a Mann-Whitney test of groups of these sizes find with this chance? Groups are drawn anew, with
 * replacement, from the values of both about their medians; each pair of groups is called out once it is shifted by the
 * (c + 1)-th largest of its differences,
 *
 *     c = the largest u with P(U <= u) <= alpha          (both sides: alpha / 2)
 *
 * and the quantile of these shifts at the power is told.
 *
 * Assumes both distributions of one form. Rests on the values seen, so that few values tell it coarsely. Smallest: 5 values
 * together, in groups for which any order at all is called out.
 *
 * Source: Collings and Hamilton (1988), Biometrics 44, 847-860 (from memory).
 */
export function smallestShiftByRanks(
  a: readonly number[],
  b: readonly number[],
  {
    alpha,
    power,
    sides,
    seed = 1,
    replicates = 2000,
  }: { alpha: number; power: number; sides: 1 | 2; seed?: number; replicates?: number },
): SmallestShiftByRanks | NotEvaluated {
  requireFraction('smallestShiftByRanks', { alpha, power });
  requireCount('smallestShiftByRanks', { seed, replicates }, 1);
  requireValues('smallestShiftByRanks', 'a', a);
  requireValues('smallestShiftByRanks', 'b', b);
  if (a.length === 0 || b.length === 0 || a.length + b.length < 5)
    return notEvaluated('fewer than 5 values tell nothing of how others would scatter', 'more specimens are tested');
  const fewer = Math.min(a.length, b.length);
  const scores = Array.from({ length: a.length + b.length }, (_, index) => index);
  if (workFor(scores, fewer) * Math.max(1, replicates / 1000) > LARGEST_WORK)
    return notEvaluated('the groups are too large to be drawn anew', 'the tool is Welch, which serves large groups');
  const sums = sumDistribution(scores, fewer);
  const least = (fewer * (fewer - 1)) / 2;
  let called = -1;
  while (sums.atMost(called + 1 + least) <= (alpha / sides) * (1 + 1e-12)) called++;
  if (called < 0)
    return notEvaluated('no order of so few values is called out at this level', 'more specimens are tested');

  const about = (values: readonly number[]) => {
    const middle = median([...values]);
    return values.map((value) => value - middle);
  };
  const residuals = [...about(a), ...about(b)];
  const { uniform } = seededGenerator(seed);
  const drawn = () => residuals[Math.floor(uniform() * residuals.length)] as number;
  const differences = new Float64Array(a.length * b.length);
  const shifts = Float64Array.from({ length: replicates }, () => {
    const other = Array.from({ length: b.length }, drawn);
    for (let i = 0; i < a.length; i++) {
      const value = drawn();
      for (let j = 0; j < b.length; j++) differences[i * b.length + j] = value - (other[j] as number);
    }
    differences.sort();
    return differences[differences.length - 1 - called] as number;
  }).sort();
  const shift = shifts[Math.ceil(power * replicates) - 1] as number;
  return { method: 'smallest shift by ranks', power, shift, replicates, seed };
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { centred, differenceOfMeans } from '../description/centred.js';
import { seededGenerator } from '../random/generator.js';
import { requireCount, requireValues } from '../requirements.js';
import { midranks } from './midranks.js';
import { sumDistribution, workFor } from './rank-sum-distribution.js';

/** What is compared between the groups. */
export type PermutedStatistic = 'mean-difference' | 'rank-sum';

export interface PermutationTest {
  method: 'permutation test';
  statistic: PermutedStatistic;
  /** Mean of a less mean of b, in the unit of the values. */
  difference: number;
  /** Share of arrangements at least as far from the middle. */
  pTwoSided: number;
  pLess: number;
  pGreater: number;
  /** True where every arrangement was looked at. */
  exact: boolean;
  /** How many ways there are to share the values out. */
  arrangements: number;
  /** Where arrangements were drawn at random: how many, from which seed, and the standard error of pTwoSided. */
  replicates?: number;
  seed?: number;
  simulationError?: number;
}

export interface PermutationOptions {
  statistic?: PermutedStatistic | undefined;
  /** Of the random arrangements, used only where there are too many to look at each; 1 if left out. */
  seed?: number | undefined;
  /** How many random arrangements; 99 999 if left out. */
  replicates?: number | undefined;
}

/** All arrangements are looked at up to so many. */
const MOST_ARRANGEMENTS = 2_000_000;
/** As many additions as are made without making anyone wait. */
const LARGEST_WORK = 1e8;

/** Sums of midranks are whole numbers; what rounding adds to or takes from their middle is less. */
const HAIR = 1e-6;

/** Share of arrangements with a sum for group a this far down, this far up, and this far from the middle. */
type Shares = Pick<PermutationTest, 'pTwoSided' | 'pLess' | 'pGreater'>;

/**
 * Could the difference between two groups come from chance alone, the values being shared out to them at random? The sum
 * of the values of a (or of their midranks) against the sums of all C(n, n_a) ways to choose n_a of the n values:
 *
 *     p = share of arrangements with a sum at least as extreme as the one seen
 *
 * two-sided: at least as far from the mean of all arrangements. Where there are too many arrangements for that, they are
 * drawn from a seeded generator and p = (as extreme + 1) / (drawn + 1), which is never too bold.
 *
 * Hypothesis: which group a value fell into has nothing to do with it. Exact, ties included, and without any
 * distribution. Smallest: 1 value in each group.
 *
 * Source: Pitman (1937), Suppl. J. R. Statist. Soc. 4, 119-130; drawn arrangements: Phipson and Smyth (2010), Statist.
 * Appl. Genet. Mol. Biol. 9, 39.
 */
export function permutationTest(
  a: readonly number[],
  b: readonly number[],
  { statistic = 'mean-difference', seed = 1, replicates = 99_999 }: PermutationOptions = {},
): PermutationTest | NotEvaluated {
  requireValues('permutationTest', 'a', a);
  requireValues('permutationTest', 'b', b);
  requireCount('permutationTest', { seed });
  requireCount('permutationTest', { replicates }, 1);
  if (a.length === 0 || b.length === 0)
    return notEvaluated('one of the groups has no values', 'both groups have at least 1 value');

  const all = [...a, ...b];
  const arrangements = arrangementsOf(all.length, a.length);
  if (!Number.isFinite(arrangements))
    return notEvaluated('there are more ways to share the values out than a number can hold', 'fewer values are given');
  const head = {
    method: 'permutation test' as const,
    statistic,
    difference: differenceOfMeans(centred(a), centred(b)),
  };
  if (statistic === 'rank-sum') {
    // Doubled, midranks are whole numbers.
    const scores = midranks(all).ranks.map((rank) => 2 * rank);
    if (workFor(scores, Math.min(a.length, b.length)) <= LARGEST_WORK)
      return { ...head, ...byCounting(scores, a.length), exact: true, arrangements };
    return {
      ...head,
      ...byDrawing(
        scores.map((score) => score - all.length - 1),
        a.length,
        seed,
        replicates,
      ),
      arrangements,
    };
  }
  const { deviations } = centred(all);
  if (arrangements <= MOST_ARRANGEMENTS)
    return { ...head, ...byEnumerating(deviations, a.length), exact: true, arrangements };
  return { ...head, ...byDrawing(deviations, a.length, seed, replicates), arrangements };
}

/** In how many ways `chosen` of n values can be shared out to one of two groups. */
export function arrangementsOf(n: number, chosen: number): number {
  let count = 1;
  for (let i = 1; i <= Math.min(chosen, n - chosen); i++) count = (count * (n - i + 1)) / i;
  return Math.round(count);
}

/** Sums that differ by less come from one and the same arrangement of values. */
function slackOf(deviations: readonly number[]): number {
  return 1e-12 * deviations.reduce((sum, deviation) => sum + Math.abs(deviation), 0);
}

function byCounting(scores: readonly number[], sizeA: number): Shares {
  const fewer = Math.min(sizeA, scores.length - sizeA);
  const sums = sumDistribution(scores, fewer);
  const total = (from: number, to: number) => scores.slice(from, to).reduce((sum, score) => sum + score, 0);
  // The smaller group is counted; where that is b, a large sum of a is a small one of b.
  const turned = fewer !== sizeA;
  const seen = turned ? total(sizeA, scores.length) : total(0, sizeA);
  const middle = (fewer * total(0, scores.length)) / scores.length;
  const [low, high] = [sums.atMost(seen), sums.atLeast(seen)];
  const off = Math.abs(seen - middle);
  const pTwoSided = off === 0 ? 1 : sums.atMost(middle - off + HAIR) + sums.atLeast(middle + off - HAIR);
  return { pTwoSided: Math.min(1, pTwoSided), pLess: turned ? high : low, pGreater: turned ? low : high };
}

function byEnumerating(deviations: readonly number[], sizeA: number): Shares {
  const seen = deviations.slice(0, sizeA).reduce((sum, deviation) => sum + deviation, 0);
  const slack = slackOf(deviations);
  let [count, less, greater, beyond] = [0, 0, 0, 0];
  const choose = (from: number, missing: number, sum: number) => {
    if (missing === 0) {
      count++;
      if (sum <= seen + slack) less++;
      if (sum >= seen - slack) greater++;
      if (Math.abs(sum) >= Math.abs(seen) - slack) beyond++;
      return;
    }
    for (let index = from; index <= deviations.length - missing; index++)
      choose(index + 1, missing - 1, sum + (deviations[index] as number));
  };
  choose(0, sizeA, 0);
  return { pTwoSided: beyond / count, pLess: less / count, pGreater: greater / count };
}

function byDrawing(deviations: readonly number[], sizeA: number, seed: number, replicates: number) {
  const generator = seededGenerator(seed);
  const values = Float64Array.from(deviations);
  const n = values.length;
  let seen = 0;
  for (let index = 0; index < sizeA; index++) seen += values[index] as number;
  const slack = slackOf(deviations);
  let [less, greater, beyond] = [0, 0, 0];
  for (let replicate = 0; replicate < replicates; replicate++) {
    let sum = 0;
    for (let index = 0; index < sizeA; index++) {
      const other = index + Math.floor(generator.uniform() * (n - index));
      const drawn = values[other] as number;
      values[other] = values[index] as number;
      values[index] = drawn;
      sum += drawn;
    }
    if (sum <= seen + slack) less++;
    if (sum >= seen - slack) greater++;
    if (Math.abs(sum) >= Math.abs(seen) - slack) beyond++;
  }
  const share = (count: number) => (count + 1) / (replicates + 1);
  const pTwoSided = share(beyond);
  return {
    pTwoSided,
    pLess: share(less),
    pGreater: share(greater),
    exact: false,
    replicates,
    seed,
    simulationError: Math.sqrt((pTwoSided * (1 - pTwoSided)) / replicates),
  };
}

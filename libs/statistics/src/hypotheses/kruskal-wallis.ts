import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { whyNoGroups } from '../description/one-way-anova.js';
import { chiSquareAbove } from '../distributions/chi-square.js';
import { requireValues } from '../requirements.js';
import { midranks } from './midranks.js';

export interface KruskalWallis {
  method: 'Kruskal-Wallis';
  n: number;
  groups: number;
  statistic: number;
  df: number;
  p: number;
}

/**
 * Do some of these groups tend to hold larger values than others, whatever the distribution?
 *
 *     H = 12 / (n (n + 1)) sum over i of n_i (r_i - (n + 1) / 2)^2 / (1 - sum (t^3 - t) / (n^3 - n))
 *
 * with r_i the mean rank of group i among all values and t how many values share each tied place. p by the chi-square
 * distribution with groups - 1 degrees of freedom, approximate for groups of fewer than 5.
 *
 * Hypothesis: all groups come from one distribution. Assumes values independent. Smallest: 2 groups of 1 value.
 *
 * Source: Kruskal and Wallis (1952), J. Amer. Statist. Assoc. 47, 583-621.
 */
export function kruskalWallis(groups: readonly (readonly number[])[]): KruskalWallis | NotEvaluated {
  groups.forEach((values, index) => {
    requireValues('kruskalWallis', `groups[${index}]`, values);
  });
  const impossible = whyNoGroups(groups);
  if (impossible) return impossible;
  const all = groups.flat();
  const n = all.length;
  const { ranks, ties } = midranks(all);
  if (ties.length === 1)
    return notEvaluated('all values are the same number', 'values are read finely enough to differ');

  let from = 0;
  let sum = 0;
  for (const { length } of groups) {
    const rankSum = ranks.slice(from, from + length).reduce((total, rank) => total + rank, 0);
    sum += length * (rankSum / length - (n + 1) / 2) ** 2;
    from += length;
  }
  const tied = ties.reduce((total, count) => total + count ** 3 - count, 0);
  const statistic = ((12 / (n * (n + 1))) * sum) / (1 - tied / (n ** 3 - n));
  const df = groups.length - 1;
  return { method: 'Kruskal-Wallis', n, groups: groups.length, statistic, df, p: chiSquareAbove(statistic, df) };
}

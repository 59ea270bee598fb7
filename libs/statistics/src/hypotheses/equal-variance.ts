import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { mean, median } from 'simple-statistics';
import { centred } from '../description/centred.js';
import { oneWayAnova, whyNoGroups } from '../description/one-way-anova.js';
import { chiSquareAbove } from '../distributions/chi-square.js';
import { requireValues } from '../requirements.js';

/** What deviations are taken from: the median is robust against skewed values (Brown-Forsythe), the mean is Levene's. */
export type Centre = 'median' | 'mean';

export interface LeveneTest {
  method: 'equality of scatter by absolute deviations';
  centre: Centre;
  groups: number;
  statistic: number;
  /** Between, within. */
  df: [number, number];
  p: number;
}

export interface BartlettTest {
  method: 'equality of scatter by Bartlett';
  groups: number;
  statistic: number;
  df: number;
  p: number;
}

/**
 * Do these groups scatter alike? The one-way analysis of variance of each value's distance from the centre of its
 * group; p by the F distribution.
 *
 * Hypothesis: all groups have one scatter. Assumes values independent; with the median nearly indifferent to the
 * distribution. Smallest: 2 groups, one of them of 3 values.
 *
 * Source: Levene (1960), in Contributions to Probability and Statistics, 278-292 (mean); Brown and Forsythe (1974),
 * J. Amer. Statist. Assoc. 69, 364-367 (median).
 */
export function equalVariance(
  groups: readonly (readonly number[])[],
  centre: Centre = 'median',
): LeveneTest | NotEvaluated {
  const impossible = whyNotAtAll('equalVariance', groups);
  if (impossible) return impossible;
  const middle = centre === 'median' ? median : mean;
  const anova = oneWayAnova(
    groups.map((values) => {
      // From the first value on: what all values share must cost no digits of their distances.
      const differences = values.map((value) => value - (values[0] as number));
      const at = middle(differences);
      return differences.map((difference) => Math.abs(difference - at));
    }),
  );
  if (isNotEvaluated(anova))
    return notEvaluated(
      `within every group all values lie equally far from its ${centre}, so their distances have no scatter`,
      'at least one group has 3 values that differ',
    );
  return {
    method: 'equality of scatter by absolute deviations',
    centre,
    groups: groups.length,
    statistic: anova.f,
    df: [anova.between.df, anova.within.df],
    p: anova.p,
  };
}

/**
 * Do these groups of normal values scatter alike?
 *
 *     T = ((n - k) ln s_p^2 - sum (n_i - 1) ln s_i^2) / (1 + (sum 1 / (n_i - 1) - 1 / (n - k)) / (3 (k - 1)))
 *
 * with s_i^2 the variance of group i and s_p^2 the pooled one; p by the chi-square distribution with k - 1 degrees of
 * freedom. Misled by values that are not normal: `equalVariance` is not.
 *
 * Hypothesis: all groups have one scatter. Assumes values independent and normal. Smallest: 2 groups of 2 values.
 *
 * Source: Bartlett (1937), Proc. R. Soc. Lond. A 160, 268-282; NIST/SEMATECH e-Handbook, section 1.3.5.7.
 */
export function bartlettTest(groups: readonly (readonly number[])[]): BartlettTest | NotEvaluated {
  const impossible = whyNotAtAll('bartlettTest', groups);
  if (impossible) return impossible;
  const about = groups.map((values) => {
    const { n, squares } = centred(values);
    return { df: n - 1, squares };
  });
  const alike = about.findIndex(({ squares }) => squares === 0);
  if (alike >= 0)
    return notEvaluated(
      `the values of groups[${alike}] do not differ, and the logarithm of no scatter does not exist`,
      'every group has at least 2 values that differ',
    );
  const df = about.reduce((sum, group) => sum + group.df, 0);
  const pooled = about.reduce((sum, group) => sum + group.squares, 0) / df;
  const k = groups.length;
  const unlike = about.reduce((sum, group) => sum - group.df * Math.log(group.squares / group.df / pooled), 0);
  const correction = 1 + (about.reduce((sum, group) => sum + 1 / group.df, 0) - 1 / df) / (3 * (k - 1));
  const statistic = Math.max(0, unlike / correction);
  return {
    method: 'equality of scatter by Bartlett',
    groups: k,
    statistic,
    df: k - 1,
    p: chiSquareAbove(statistic, k - 1),
  };
}

function whyNotAtAll(caller: string, groups: readonly (readonly number[])[]): NotEvaluated | undefined {
  groups.forEach((values, index) => {
    requireValues(caller, `groups[${index}]`, values);
  });
  const impossible = whyNoGroups(groups);
  if (impossible) return impossible;
  const single = groups.findIndex((values) => values.length < 2);
  return single < 0
    ? undefined
    : notEvaluated(`groups[${single}] has a single value, which has no scatter`, 'every group has at least 2 values');
}

import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { sum } from 'simple-statistics';
import { fAbove } from '../distributions/f-distribution.js';
import { requireValues } from '../requirements.js';
import { type Centred, centred, differenceOfMeans } from './centred.js';

/** One source of scatter: degrees of freedom, sum of squares and mean square (unit of the values, squared). */
export interface ScatterSource {
  df: number;
  ss: number;
  ms: number;
}

export interface OneWayAnova {
  method: 'one-way analysis of variance';
  n: number;
  groups: number;
  between: ScatterSource;
  within: ScatterSource;
  /** between.ms / within.ms */
  f: number;
  p: number;
  /** Share of all squares that lies between the groups, a fraction. */
  rSquared: number;
  /** Square root of within.ms, in the unit of the values. */
  residualSd: number;
}

/**
 * Do the means of these groups differ by more than the scatter within the groups explains?
 *
 *     between  sum over groups of n_i (m_i - m)^2               with k - 1 degrees of freedom
 *     within   sum over groups and values of (x_ij - m_i)^2     with n - k
 *     f        (between / (k - 1)) / (within / (n - k));  p by the F distribution
 *
 * with m_i the mean of group i and m that of all values. Each group is taken about its own mean
 * before it is squared: one-pass formulas lose every digit where the values share many.
 *
 * Hypothesis: all groups have one mean. Assumes values independent and normal with one scatter.
 * Smallest: 2 groups, one of them of 2 values.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.4.
 */
export function oneWayAnova(groups: readonly (readonly number[])[]): OneWayAnova | NotEvaluated {
  groups.forEach((values, index) => {
    requireValues('oneWayAnova', `groups[${index}]`, values);
  });
  const impossible = whyNoGroups(groups);
  if (impossible) return impossible;

  const about = groups.map(centred);
  const n = sum(about.map((group) => group.n));
  const k = groups.length;
  if (n === k) return notEvaluated('no group has more than one value', 'at least one group has 2 values');
  const within = scatter(n - k, sum(about.map(({ squares }) => squares)));
  if (within.ss === 0)
    return notEvaluated(
      'no values within a group differ, so there is no scatter to compare the groups by',
      'values are read finely enough to differ',
    );
  const between = scatter(k - 1, squaresBetween(about, n));
  const f = between.ms / within.ms;
  return {
    method: 'one-way analysis of variance',
    n,
    groups: k,
    between,
    within,
    f,
    p: fAbove(f, [between.df, within.df]),
    rSquared: between.ss / (between.ss + within.ss),
    residualSd: Math.sqrt(within.ms),
  };
}

/** Why these groups cannot be compared with each other at all, if so. */
export function whyNoGroups(groups: readonly (readonly number[])[]): NotEvaluated | undefined {
  if (groups.length < 2) return notEvaluated(`${groups.length} groups cannot differ`, 'at least 2 groups are given');
  const empty = groups.findIndex((values) => values.length === 0);
  if (empty >= 0) return notEvaluated(`groups[${empty}] has no values`, 'every group has at least 1 value');
  return undefined;
}

function scatter(df: number, ss: number): ScatterSource {
  return { df, ss, ms: ss / df };
}

function squaresBetween(about: readonly Centred[], n: number): number {
  const offsets = about.map((group) => differenceOfMeans(group, about[0] as Centred));
  const overall = sum(about.map((group, index) => group.n * (offsets[index] as number))) / n;
  return sum(about.map((group, index) => group.n * ((offsets[index] as number) - overall) ** 2));
}

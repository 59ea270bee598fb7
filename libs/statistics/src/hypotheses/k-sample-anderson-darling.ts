import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { whyNoGroups } from '../description/one-way-anova.js';
import { requireFraction, requireValues } from '../requirements.js';
import { limitAbove, limitQuantile, limitSd } from './anderson-darling-limit.js';
import { midranks } from './midranks.js';

export interface KSampleAndersonDarling {
  method: 'k-sample Anderson-Darling';
  n: number;
  groups: number;
  alpha: number;
  /** raw / (groups - 1); near 1 where all groups come from one population. */
  statistic: number;
  raw: number;
  /** (raw - (groups - 1)) / its standard deviation, for samples of these sizes. */
  standardised: number;
  /** On the scale of `statistic`. */
  critical: number;
  /** Where `critical` comes from: the handbook's formula at its levels, the limiting distribution at any other. */
  criticalFrom: 'published formula' | 'limiting distribution';
  p: number;
  /** True where the statistic is no larger than critical: no difference was seen. */
  same: boolean;
}

/** Scholz and Stephens (1987), table 2: critical standardised value b0 + b1 / sqrt m + b2 / m for m + 1 groups. */
const PUBLISHED = new Map<number, readonly [number, number, number]>([
  [0.25, [0.675, -0.245, -0.105]],
  [0.1, [1.281, 0.25, -0.305]],
  [0.05, [1.645, 0.678, -0.362]],
  [0.025, [1.96, 1.149, -0.391]],
  [0.01, [2.326, 1.822, -0.396]],
]);

/**
 * Could these groups (batches) come from one population, whatever its distribution?
 *
 *     raw = (n - 1) / n^2 sum over i of (1 / n_i) sum over j of h_j (n F_ij - n_i H_j)^2 / (H_j (n - H_j) - n h_j / 4)
 *
 * over the distinct values j of all groups, h_j how often each occurs, H_j the number of values below it plus half of
 * h_j, and F_ij the same within group i (midranks). The critical value is 1 + sigma (b0 + b1 / sqrt m + b2 / m) / m with
 * m = groups - 1, sigma the standard deviation of `raw`, and published b at the levels 0.25, 0.1, 0.05, 0.025 and 0.01.
 * p, and critical values at other levels, take the standardised value in the limiting distribution for large groups; at
 * the published levels the two agree to about 0.001 in p.
 *
 * Hypothesis: all groups come from one continuous distribution. Assumes values independent. Approximate for groups of
 * fewer than 5. Smallest: 2 groups of 2 values.
 *
 * Source: Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924; MIL-HDBK-17-1F (2002), volume 1, 8.3.2.2.
 */
export function kSampleAndersonDarling(
  groups: readonly (readonly number[])[],
  alpha = 0.05,
): KSampleAndersonDarling | NotEvaluated {
  requireFraction('kSampleAndersonDarling', { alpha });
  groups.forEach((values, index) => {
    requireValues('kSampleAndersonDarling', `groups[${index}]`, values);
  });
  const impossible = whyNoGroups(groups);
  if (impossible) return impossible;
  const small = groups.findIndex((values) => values.length < 2);
  if (small >= 0) return notEvaluated(`groups[${small}] has a single value`, 'every group has at least 2 values');
  const all = groups.flat();
  if (all.every((value) => value === all[0]))
    return notEvaluated('all values are the same number', 'values are read finely enough to differ');

  const m = groups.length - 1;
  const raw = rawStatistic(groups);
  const { sigma, critical, criticalFrom } = criticalOf(
    groups.map(({ length }) => length),
    alpha,
  );
  const standardised = (raw - m) / sigma;
  const statistic = raw / m;
  return {
    method: 'k-sample Anderson-Darling',
    n: all.length,
    groups: groups.length,
    alpha,
    statistic,
    raw,
    standardised,
    critical,
    criticalFrom,
    p: limitAbove(m + limitSd(m) * standardised, m),
    same: statistic <= critical,
  };
}

/** What `statistic` is held to in groups of these sizes, and the standard deviation of `raw` in them. */
export function criticalOf(
  sizes: readonly number[],
  alpha: number,
): Pick<KSampleAndersonDarling, 'critical' | 'criticalFrom'> & { sigma: number } {
  const m = sizes.length - 1;
  const sigma = Math.sqrt(variance(sizes));
  const published = PUBLISHED.get(alpha);
  const score = published
    ? published[0] + published[1] / Math.sqrt(m) + published[2] / m
    : (limitQuantile(alpha, m) - m) / limitSd(m);
  return {
    sigma,
    critical: 1 + (sigma * score) / m,
    criticalFrom: published ? 'published formula' : 'limiting distribution',
  };
}

/** `raw` of groups of at least 2 values each, not all of them the same number. */
export function rawStatistic(groups: readonly (readonly number[])[]): number {
  const all = groups.flatMap((values, group) => values.map((value) => ({ value, group })));
  const n = all.length;
  const { ranks } = midranks(all.map(({ value }) => value));
  const order = all.map((_, index) => index).sort((a, b) => (ranks[a] as number) - (ranks[b] as number));
  const below = groups.map(() => 0);
  let sum = 0;
  for (let start = 0; start < n; ) {
    let end = start + 1;
    while (end < n && ranks[order[end] as number] === ranks[order[start] as number]) end++;
    const here = groups.map(() => 0);
    for (let place = start; place < end; place++)
      (here[(all[order[place] as number] as { group: number }).group] as number)++;
    const tied = end - start;
    const upTo = start + tied / 2;
    const weight = tied / (upTo * (n - upTo) - (n * tied) / 4);
    groups.forEach(({ length }, group) => {
      const own = (below[group] as number) + (here[group] as number) / 2;
      sum += (weight * (n * own - length * upTo) ** 2) / length;
      below[group] = (below[group] as number) + (here[group] as number);
    });
    start = end;
  }
  return ((n - 1) / (n * n)) * sum;
}

/** Variance of the raw statistic for groups of these sizes, without ties: Scholz and Stephens (1987), equation 4. */
function variance(sizes: readonly number[]): number {
  const k = sizes.length;
  const n = sizes.reduce((sum, size) => sum + size, 0);
  const inverses = sizes.reduce((sum, size) => sum + 1 / size, 0);
  let harmonic = 0;
  for (let i = 1; i < n; i++) harmonic += 1 / i;
  let double = 0;
  let tail = 0;
  for (let i = n - 2; i >= 1; i--) {
    tail += 1 / (i + 1);
    double += tail / (n - i);
  }
  const [h, g, H] = [harmonic, double, inverses];
  const a = (4 * g - 6) * (k - 1) + (10 - 6 * g) * H;
  const b = (2 * g - 4) * k ** 2 + 8 * h * k + (2 * g - 14 * h - 4) * H - 8 * h + 4 * g - 6;
  const c = (6 * h + 2 * g - 2) * k ** 2 + (4 * h - 4 * g + 6) * k + (2 * h - 6) * H + 4 * h;
  const d = (2 * h + 6) * k ** 2 - 4 * h * k;
  return (a * n ** 3 + b * n ** 2 + c * n + d) / ((n - 1) * (n - 2) * (n - 3));
}

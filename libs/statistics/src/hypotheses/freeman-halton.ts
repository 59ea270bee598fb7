import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireCount } from '../requirements.js';

export interface FreemanHalton {
  method: 'Freeman-Halton';
  /** Share of tables with the same totals that are no more likely than the one seen. */
  p: number;
  /** How likely the table seen is among them. */
  chanceOfTable: number;
  /** How many tables have these totals. */
  tables: number;
}

/** As many tables as are looked at without making anyone wait. */
const MOST_TABLES = 3_000_000;
/** Tables as likely as the one seen come out so by other sums, which rounding tells apart. */
const HAIR = 1e-9;

/**
 * Do two groups fall into categories in the same shares? Counts `[in the first group, in the second]` for each category:
 *
 *     P(table) = product of category totals! x n_1! n_2! / (n! product of all counts!)
 *     p        = sum of P over all tables with the same totals that are no more likely than the one seen
 *
 * For two categories it is Fisher's exact test, two-sided. Every table is looked at.
 *
 * Hypothesis: the category has nothing to do with the group. Exact, conservative for being discrete. Smallest: one unit in
 * each group and two categories seen.
 *
 * Source: Freeman and Halton (1951), Biometrika 38, 141-149; Fisher (1935), J. R. Statist. Soc. 98, 39-54.
 */
export function freemanHalton(counts: readonly (readonly [number, number])[]): FreemanHalton | NotEvaluated {
  counts.forEach(([first, second], index) => {
    requireCount('freemanHalton', { [`counts[${index}][0]`]: first, [`counts[${index}][1]`]: second });
  });
  const totals = counts.map(([first, second]) => first + second).filter((total) => total > 0);
  const inFirst = counts.reduce((sum, [first]) => sum + first, 0);
  const n = totals.reduce((sum, total) => sum + total, 0);
  if (inFirst === 0 || inFirst === n)
    return notEvaluated('one of the groups is empty', 'both groups have at least 1 unit');
  if (totals.length < 2)
    return notEvaluated('all units fall into one category, so no shares can differ', 'units fall into 2 categories');
  if (tablesOf(totals, inFirst) > MOST_TABLES)
    return notEvaluated(
      `there are more than ${MOST_TABLES} tables with these totals`,
      'categories are fewer, or rare ones are put together beforehand',
    );

  const logs = logFactorials(n);
  const log = (count: number) => logs[count] as number;
  const logChoose = (total: number, first: number) => log(total) - log(first) - log(total - first);
  const all = logChoose(n, inFirst);
  const seen = counts.reduce((sum, [first, second]) => sum + logChoose(first + second, first), 0) - all;
  // What the categories from here on can still take.
  const room = totals.map((_, index) => totals.slice(index).reduce((sum, total) => sum + total, 0));
  let [p, tables] = [0, 0];
  const fill = (category: number, left: number, logChance: number) => {
    if (category === totals.length) {
      tables++;
      if (logChance - all <= seen + HAIR) p += Math.exp(logChance - all);
      return;
    }
    const total = totals[category] as number;
    const later = room[category + 1] ?? 0;
    for (let first = Math.max(0, left - later); first <= Math.min(total, left); first++)
      fill(category + 1, left - first, logChance + logChoose(total, first));
  };
  fill(0, inFirst, 0);
  return { method: 'Freeman-Halton', p: Math.min(1, p), chanceOfTable: Math.exp(seen), tables };
}

/** How many tables there are: ways to take `chosen` units out of the categories, counted one category after the other. */
function tablesOf(totals: readonly number[], chosen: number): number {
  let ways = new Float64Array(chosen + 1);
  ways[0] = 1;
  for (const total of totals) {
    const next = new Float64Array(chosen + 1);
    for (let taken = 0; taken <= chosen; taken++)
      for (let first = 0; first <= Math.min(total, taken); first++)
        next[taken] = (next[taken] as number) + (ways[taken - first] as number);
    ways = next;
  }
  return ways[chosen] as number;
}

function logFactorials(n: number): Float64Array {
  const logs = new Float64Array(n + 1);
  for (let count = 2; count <= n; count++) logs[count] = (logs[count - 1] as number) + Math.log(count);
  return logs;
}

import type { LevelResult } from './binary-likelihood.js';

/** Levels that part what broke from what held, so that no finite curve explains them best. */
export interface Separation {
  kind: 'complete' | 'quasi-complete';
  /** Where the curve jumps; one level twice where both outcomes were seen at it alone. */
  between: [number, number];
  /** Rising: what broke was struck higher. */
  direction: 'rising' | 'falling';
}

/**
 * Are broken and unbroken specimens parted by level? Completely where all of one kind were struck below all of the other;
 * quasi-completely where they share a single level. The likelihood then has no finite maximum.
 *
 * Source: Albert and Anderson (1984), Biometrika 71, 1-10; Silvapulle (1981), J. R. Statist. Soc. B 43, 310-313.
 */
export function separationOf(rows: readonly LevelResult[]): Separation | undefined {
  const broke = rows.filter((row) => row.broke > 0).map(({ level }) => level);
  const held = rows.filter((row) => row.broke < row.tested).map(({ level }) => level);
  const rising = parted(held, broke);
  if (rising) return { ...rising, direction: 'rising' };
  const falling = parted(broke, held);
  return falling && { ...falling, direction: 'falling' };
}

function parted(lower: readonly number[], upper: readonly number[]): Omit<Separation, 'direction'> | undefined {
  const from = lower.reduce((most, level) => Math.max(most, level), Number.NEGATIVE_INFINITY);
  const to = upper.reduce((least, level) => Math.min(least, level), Number.POSITIVE_INFINITY);
  if (from > to) return undefined;
  return { kind: from < to ? 'complete' : 'quasi-complete', between: [from, to] };
}

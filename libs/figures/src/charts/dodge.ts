/** What a mark takes on the axis, in points: a dot its width, an "at least" its dot and arrow. */
export interface Extent {
  from: number;
  to: number;
}

/**
 * Levels that keep marks apart: in the order of the axis, each on the lowest level where it touches none before it.
 * Level 0 lies on the axis.
 */
export function dodge(extents: readonly Extent[], gap: number): number[] {
  const order = extents
    .map((extent, index) => ({ ...extent, index }))
    .sort((a, b) => a.from - b.from || a.index - b.index);
  const ends: number[] = [];
  const levels: number[] = new Array(extents.length).fill(0);
  for (const { from, to, index } of order) {
    let level = 0;
    while ((ends[level] ?? Number.NEGATIVE_INFINITY) > from - gap) level += 1;
    ends[level] = to;
    levels[index] = level;
  }
  return levels;
}

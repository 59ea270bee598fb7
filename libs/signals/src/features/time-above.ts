/** Stretch of samples, both ends counted in. */
export interface Span {
  from: number;
  last: number;
}

/**
 * For how long was a value above a level? Where it crosses between two samples, the crossing of the straight line between
 * them counts. Steps longer than `longestGap` show nothing and count nothing; seconds.
 */
export function timeAbove(
  time: Float64Array,
  values: Float64Array,
  level: number,
  { from, last }: Span,
  longestGap: number,
): number {
  let above = 0;
  for (let i = from + 1; i <= last; i++) {
    const step = (time[i] as number) - (time[i - 1] as number);
    if (step > longestGap) continue;
    const [a, b] = [(values[i - 1] as number) - level, (values[i] as number) - level];
    if (a > 0 && b > 0) above += step;
    else if (a > 0 || b > 0) above += step * (Math.max(a, b) / Math.abs(b - a));
  }
  return above;
}

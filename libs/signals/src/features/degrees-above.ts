import type { Span } from './time-above.js';

/**
 * How much was a value above a level, over time: ∫ max(0, y − level) dt, y's unit times seconds. Between two samples y is
 * the straight line between them, cut where it crosses. Steps longer than `longestGap` show nothing and count nothing.
 */
export function degreesAbove(
  time: Float64Array,
  values: Float64Array,
  level: number,
  { from, last }: Span,
  longestGap: number,
): number {
  let sum = 0;
  for (let i = from + 1; i <= last; i++) {
    const step = (time[i] as number) - (time[i - 1] as number);
    if (step > longestGap) continue;
    const [a, b] = [(values[i - 1] as number) - level, (values[i] as number) - level];
    if (a > 0 && b > 0) sum += (step * (a + b)) / 2;
    // A triangle: as high as the end above, as long as its share of the step.
    else if (a > 0 || b > 0) sum += (step * Math.max(a, b) ** 2) / (2 * Math.abs(b - a));
  }
  return sum;
}

import type { Span } from '../features/time-above.js';

/** How far two readings went apart over a span, and for how long at a stretch by more than they may. */
export interface Apart {
  largest: number;
  /** Seconds, and the samples between which that stretch lies. */
  longest: number;
  from: number;
  to: number;
  /** Samples that have both readings. */
  compared: number;
}

/**
 * For how long at a stretch were two readings further apart than `most`? `off` says how far they are apart at a sample;
 * undefined where one of them has no reading, which ends a stretch.
 */
export function longestApart(
  time: Float64Array,
  { from, last }: Span,
  most: number,
  off: (index: number) => number | undefined,
): Apart {
  const apart: Apart = { largest: 0, longest: 0, from, to: from, compared: 0 };
  let begins: number | undefined;
  for (let i = from; i <= last; i++) {
    const now = off(i);
    if (now === undefined) {
      begins = undefined;
      continue;
    }
    apart.compared++;
    apart.largest = Math.max(apart.largest, now);
    if (now <= most) begins = undefined;
    else {
      begins ??= i;
      const lasted = (time[i] as number) - (time[begins] as number);
      if (lasted > apart.longest) Object.assign(apart, { longest: lasted, from: begins, to: i });
    }
  }
  return apart;
}

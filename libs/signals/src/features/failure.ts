import type { LossOfPressure } from '@breakbook/lab';

/** How the pressure came down, as the record alone shows it. */
export type Ending =
  /** It fell by the share asked for within the window asked for. */
  | { ending: 'burst'; before: number; fallen: number }
  /** It sank below that share by less than 1 % a second: a leak, not a burst. */
  | { ending: 'leak'; sharePerSecond: number; from: number }
  /** It sank below that share slower than a burst and faster than a leak: as when a line is vented. */
  | { ending: 'let down'; sharePerSecond: number }
  /** It stood within that share of its peak when the record ended. */
  | { ending: 'record ended' }
  /** A person says where it was lost, and how; no share a second was looked for. */
  | { ending: 'as a person says'; loss: LossOfPressure; before: number; fallen: number };

/** The samples just before the pressure was lost and at which it was, where such a moment is known. */
export function lossIn(ending: Ending): { before: number; fallen: number } | undefined {
  return ending.ending === 'burst' || ending.ending === 'as a person says' ? ending : undefined;
}

/** Did the part let go at once? */
export function letGo(ending: Ending): boolean {
  return ending.ending === 'burst' || (ending.ending === 'as a person says' && ending.loss !== 'leak');
}

export interface FallCriterion {
  /** Share of the running maximum, and the seconds within which it must be lost. */
  fall: number;
  window: number;
  /** Standard deviation of the readings: a fall that noise could make is none. */
  noise: number;
}

/** Falls are looked for once the pressure has passed this share of its peak; below it noise is a large share of it. */
const ARMED_SHARE = 0.1;
/** Readings that differ by less than this many standard deviations may differ by noise alone. */
export const NOISE_MULTIPLE = 6;
/** A part that let go does not hold its pressure again within this time; a loose plug does. Seconds. */
const RECOVERY = 1;
/** Common practice, no source: slower than this share a second with the pump on is a leak. */
const LEAK_SHARE_PER_SECOND = 0.01;

/**
 * When did something let go? The first time at which the pressure has fallen by `fall` of its running maximum within
 * `window`, and does not come back within a second.
 *
 * `before` is the last sample before the fall (the last of the window's largest), `fallen` the sample at which the
 * criterion is met. Pressures are zero-subtracted and despiked, rising from a vented start.
 *
 * Common practice, no source; the thresholds are the method's.
 */
export function findEnding(time: Float64Array, pressure: Float64Array, criterion: FallCriterion): Ending {
  const peak = indexOfLargest(pressure);
  const armed = (pressure[peak] as number) * ARMED_SHARE;
  const least = NOISE_MULTIPLE * criterion.noise;
  // Indices of the window whose values fall from its largest to the latest: the first is the window's largest.
  const window: number[] = [];
  let first = 0;
  let largest = 0;

  for (let i = 0; i < pressure.length; i++) {
    const now = pressure[i] as number;
    while (window.length > first && (pressure[window.at(-1) as number] as number) <= now) window.pop();
    window.push(i);
    // The sample before stays in view even across a gap: what was lost in it was lost.
    while (
      (window[first] as number) < i - 1 &&
      (time[i] as number) - (time[window[first] as number] as number) > criterion.window
    )
      first++;
    if (now > largest) largest = now;
    if (largest < armed) continue;

    const before = window[first] as number;
    const lost = (pressure[before] as number) - now;
    if (
      lost >= criterion.fall * largest &&
      lost > least &&
      !comesBack(time, pressure, i, (1 - criterion.fall) * largest)
    )
      return { ending: 'burst', before, fallen: i };
  }
  return slowEnding(time, pressure, peak, criterion.fall);
}

/**
 * The ending that a person states: the sample of that moment, and the last of the largest in the window before it, as
 * where the record alone is asked.
 */
export function statedEnding(
  time: Float64Array,
  pressure: Float64Array,
  { fallen, loss }: { fallen: number; loss: LossOfPressure },
  window: number,
): Ending {
  let before = Math.max(0, fallen - 1);
  for (let i = before; i >= 0 && (time[fallen] as number) - (time[i] as number) <= window; i--)
    if ((pressure[i] as number) > (pressure[before] as number)) before = i;
  return { ending: 'as a person says', loss, before, fallen };
}

function comesBack(time: Float64Array, pressure: Float64Array, from: number, level: number): boolean {
  const until = (time[from] as number) + RECOVERY;
  for (let i = from; i < pressure.length && (time[i] as number) <= until; i++)
    if ((pressure[i] as number) >= level) return true;
  return false;
}

function slowEnding(time: Float64Array, pressure: Float64Array, peak: number, fall: number): Ending {
  const top = pressure[peak] as number;
  let end = peak;
  while (end < pressure.length && (pressure[end] as number) > (1 - fall) * top) end++;
  if (end === pressure.length) return { ending: 'record ended' };

  // From where it last stood near its top, so that time spent holding does not make a fall look slow.
  let start = end;
  while (start > peak && (pressure[start] as number) < (1 - fall / 10) * top) start--;
  const seconds = (time[end] as number) - (time[start] as number);
  const sharePerSecond = ((pressure[start] as number) - (pressure[end] as number)) / top / seconds;
  return sharePerSecond < LEAK_SHARE_PER_SECOND
    ? { ending: 'leak', sharePerSecond, from: start }
    : { ending: 'let down', sharePerSecond };
}

/** Index of the largest value; of equal ones the first. */
export function indexOfLargest(values: Float64Array, to = values.length): number {
  let at = 0;
  for (let i = 1; i < to; i++) if ((values[i] as number) > (values[at] as number)) at = i;
  return at;
}

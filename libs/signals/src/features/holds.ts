import { leastSquaresSlope } from './least-squares-slope.js';

/** The longest time a record stayed inside a band, and what the pressure did meanwhile. */
export interface HoldFound {
  /** Seconds, on the record's clock. */
  entry: number;
  exit: number;
  seconds: number;
  min: number;
  max: number;
  mean: number;
  /** Per second, by least squares. */
  slope: number;
  /** Did the record end while the pressure was still inside? */
  recordEnded: boolean;
}

/** Leaving the band for longer than this ends the hold. Seconds. Common practice, no source. */
const LEAVE_AFTER = 1;

interface Stay {
  first: number;
  last: number;
}

/**
 * How long did the pressure stay between `low` and `high` without leaving for more than a second? The longest stay, or
 * undefined where it was never inside.
 *
 * Entry and exit are the crossings of the band's edge, interpolated between two samples. Samples further apart than a
 * second show nothing of the time between them and end the stay like a departure.
 */
export function longestStay(
  time: Float64Array,
  pressure: Float64Array,
  band: { low: number; high: number },
): HoldFound | undefined {
  const inside = (i: number) => (pressure[i] as number) >= band.low && (pressure[i] as number) <= band.high;
  let best: HoldFound | undefined;
  let stay: Stay | undefined;
  const close = (last: boolean) => {
    if (!stay) return;
    const found = described(time, pressure, band, stay, last);
    if (!best || found.seconds > best.seconds) best = found;
    stay = undefined;
  };

  for (let i = 0; i < pressure.length; i++) {
    if (stay && (time[i] as number) - (time[stay.last] as number) > LEAVE_AFTER) close(false);
    if (!inside(i)) continue;
    if (stay) stay.last = i;
    else stay = { first: i, last: i };
  }
  close(stay?.last === pressure.length - 1);
  return best;
}

function described(
  time: Float64Array,
  pressure: Float64Array,
  band: { low: number; high: number },
  { first, last }: Stay,
  recordEnded: boolean,
): HoldFound {
  const entry = crossing(time, pressure, band, first, first - 1);
  const exit = recordEnded ? (time[last] as number) : crossing(time, pressure, band, last, last + 1);
  let [min, max, sum] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (let i = first; i <= last; i++) {
    const value = pressure[i] as number;
    min = Math.min(min, value);
    max = Math.max(max, value);
    sum += value;
  }
  return {
    entry,
    exit,
    seconds: exit - entry,
    min,
    max,
    mean: sum / (last - first + 1),
    slope: last > first ? leastSquaresSlope(time, pressure, first, last + 1) : 0,
    recordEnded,
  };
}

/** When the edge of the band was crossed between a sample inside and its neighbour outside. */
function crossing(
  time: Float64Array,
  pressure: Float64Array,
  band: { low: number; high: number },
  inside: number,
  outside: number,
): number {
  const at = time[inside] as number;
  const then = time[outside];
  if (then === undefined || Math.abs(then - at) > LEAVE_AFTER) return at;
  const [value, beyond] = [pressure[inside] as number, pressure[outside] as number];
  const edge = beyond < band.low ? band.low : band.high;
  return at + ((edge - value) / (beyond - value)) * (then - at);
}
